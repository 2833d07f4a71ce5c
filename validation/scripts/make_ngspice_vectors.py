#!/usr/bin/env python3
"""Writes vectors from ngspice, an independent circuit simulator: transient analysis from rest of invented, generic circuits.

Usage:  python3 make_ngspice_vectors.py          (needs the program ngspice)

The tolerance is ngspice's own: trapezoidal integration is of second order, so what halving the step moves is three times the error left.
"""
import os
import subprocess
import tempfile

import numpy as np

HERE = os.path.dirname(os.path.abspath(__file__))
OUT = os.path.join(HERE, "..", "src", "test", "resources", "vectors", "ngspice.csv")
STEP, TOLERANCE = "5p", 5e-6

NETLIST = """* {title}
Vin n1 0 {source}
{elements}
.options reltol=1e-7 abstol=1e-16 vntol=1e-10 chgtol=1e-20 method=trap
.control
set noaskquit
set numdgt=14
tran 1n 200n 0 {step} uic
linearize v({node})
wrdata {out} v({node})
quit 0
.endc
.end
"""

SOURCES = [
    ("pulse", "PULSE(0 1 3n 2n 4n 57n 1)", "pulse(1.0, 3e-09, 6e-08, 2e-09, 4e-09)"),
    ("sine burst", "SIN(0 1 90meg 5n)", "startingAt(delayed(sine(1.0, 90000000.0), 5e-09), 5e-09)"),
    ("points", "PWL(0 0 10n 0 14n 0.8 30n -0.6 31n 0.4 90n 0.1)", "startingAt(recorded([0.0, 1e-08, 1.4e-08, 3e-08, 3.1e-08, 9e-08], [0.0, 0.0, 0.8, -0.6, 0.4, 0.1]), 0.0)"),
]


def buffered(henries, farads):
    """A lead into an input, then, behind a buffer, AC coupling: the response is a product written out by hand."""
    elements = f"R1 n1 x 50\nL1 x tip {henries!r}\nC1 tip 0 {farads!r}\nR2 tip 0 1e6\nE1 b 0 tip 0 1\nC3 b out 10e-9\nR3 out 0 1e3"
    poles = np.roots([1.0, 50 / henries + 1 / (1e6 * farads), (1 + 50 / 1e6) / (henries * farads)])
    parts = ", ".join(f"{float(p.real)!r}, {float(p.imag)!r}" for p in poles)
    response = f"product(rational({1 / (henries * farads)!r}, [], [{parts}]), highPass({1 / (2 * np.pi * 10e-9 * 1e3)!r}))"
    return f"{henries * 1e9:g} nH and {farads * 1e12:g} pF, buffer, coupling", elements, "out", response


def network(title, parts, node):
    """The same elements for both programs: (kind, node, node, value), node 0 is ground, the source drives node 1."""
    elements = "\n".join(f"{'RLC'[('resistor', 'inductor', 'capacitor').index(kind)]}{i} {'n%d' % a if a else 0} {'n%d' % b if b else 0} {value!r}" for i, (kind, a, b, value) in enumerate(parts))
    words = ", ".join(f"{kind}({a}, {b}, {value!r})" for kind, a, b, value in parts)
    return title, elements, f"n{node}", f"network(1, {node}, {words})"


CIRCUITS = [
    buffered(100e-9, 10e-12),
    buffered(25e-9, 15e-12),
    network(
        "lead, input and coupling that load one another",
        [("resistor", 1, 2, 50.0), ("inductor", 2, 3, 60e-9), ("capacitor", 3, 0, 12e-12), ("resistor", 3, 0, 1e6), ("capacitor", 3, 4, 2e-10), ("resistor", 4, 0, 1e3), ("capacitor", 4, 0, 5e-12)],
        4,
    ),
    network(
        "divider of 9 to 1 Mohm, 5 % overcompensated, behind a lead",
        [("resistor", 1, 2, 50.0), ("inductor", 2, 3, 100e-9), ("resistor", 3, 4, 9e6), ("capacitor", 3, 4, 12.6e-12), ("resistor", 4, 0, 1e6), ("capacitor", 4, 0, 108e-12)],
        4,
    ),
]


def run(title, source, elements, node, step, folder):
    out = os.path.join(folder, "out.txt")
    with open(os.path.join(folder, "run.cir"), "w", encoding="utf-8") as f:
        f.write(NETLIST.format(title=title, source=source, elements=elements, node=node, step=step, out=out))
    subprocess.run(["ngspice", "-b", f.name], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    rows = np.loadtxt(out)
    return {round(t * 1e9): v for t, v in rows if abs(t * 1e9 - round(t * 1e9)) < 1e-6}


def main():
    version = subprocess.run(["ngspice", "--version"], capture_output=True, text=True, check=True).stdout
    version = next(w for w in version.split() if w.startswith("ngspice-"))
    lines = [
        "# Test vectors: ngspice, transient analysis from rest of invented, generic circuits.",
        f"# tool: {version}; script: validation/scripts/make_ngspice_vectors.py",
        f"# expression: netlists in the script; trapezoidal integration, longest step {STEP}s; sampling: linearised to 1 ns, sample k at k ns",
        "# tolerance: of the full scale stated with the case: ngspice's own, from runs at twice the step",
    ]
    with tempfile.TemporaryDirectory() as folder:
        for name, source, words in SOURCES:
            for title, elements, node, response in CIRCUITS:
                values = run(title, source, elements, node, STEP, folder)
                coarse = run(title, source, elements, node, "10p", folder)
                ks = list(range(1, 40)) + list(range(43, 199, 7))
                moved = max(abs(values[k] - coarse[k]) for k in ks)
                assert moved / 3 / 2.0 < TOLERANCE, (name, title, moved)
                print(name, title, "moved by", moved)
                lines += ["", f"case: {name}, {title}", f"signal: {words}", f"response: {response}"]
                lines += ["full scale: 2.0", "start: 0.0", "rate: 1000000000.0", f"tolerance: {TOLERANCE!r}", "kind,where,volts"]
                lines += [f"sample,{k},{float(values[k])!r}" for k in ks]
    with open(OUT, "w", encoding="utf-8") as f:
        f.write("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
