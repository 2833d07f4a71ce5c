#!/usr/bin/env python3
"""Writes vectors from ngspice, an independent circuit simulator: transient analysis from rest of an invented, generic circuit.

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

NETLIST = """* 50 ohm source, {henries:g} H of lead, 1 Mohm beside {farads:g} F, buffer, coupling of 10 nF into 1 kohm
Vin in 0 {source}
R1 in x 50
L1 x tip {henries!r}
C1 tip 0 {farads!r}
R2 tip 0 1e6
E1 b 0 tip 0 1
C3 b out 10e-9
R3 out 0 1e3
.options reltol=1e-7 abstol=1e-16 vntol=1e-10 chgtol=1e-20 method=trap
.control
set noaskquit
set numdgt=14
tran 1n 200n 0 {step} uic
linearize v(out)
wrdata {out} v(out)
quit 0
.endc
.end
"""

SOURCES = [
    ("pulse", "PULSE(0 1 3n 2n 4n 57n 1)", "pulse(1.0, 3e-09, 6e-08, 2e-09, 4e-09)"),
    ("sine burst", "SIN(0 1 90meg 5n)", "startingAt(delayed(sine(1.0, 90000000.0), 5e-09), 5e-09)"),
    ("points", "PWL(0 0 10n 0 14n 0.8 30n -0.6 31n 0.4 90n 0.1)", "startingAt(recorded([0.0, 1e-08, 1.4e-08, 3e-08, 3.1e-08, 9e-08], [0.0, 0.0, 0.8, -0.6, 0.4, 0.1]), 0.0)"),
]
CIRCUITS = [(100e-9, 10e-12), (25e-9, 15e-12)]


def response(henries, farads):
    poles = np.roots([1.0, 50 / henries + 1 / (1e6 * farads), (1 + 50 / 1e6) / (henries * farads)])
    parts = ", ".join(f"{float(p.real)!r}, {float(p.imag)!r}" for p in poles)
    return f"product(rational({1 / (henries * farads)!r}, [], [{parts}]), highPass({1 / (2 * np.pi * 10e-9 * 1e3)!r}))"


def run(source, henries, farads, step, folder):
    out = os.path.join(folder, "out.txt")
    with open(os.path.join(folder, "run.cir"), "w", encoding="utf-8") as f:
        f.write(NETLIST.format(source=source, henries=henries, farads=farads, step=step, out=out))
    subprocess.run(["ngspice", "-b", f.name], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    rows = np.loadtxt(out)
    return {round(t * 1e9): v for t, v in rows if abs(t * 1e9 - round(t * 1e9)) < 1e-6}


def main():
    version = subprocess.run(["ngspice", "--version"], capture_output=True, text=True, check=True).stdout
    version = next(w for w in version.split() if w.startswith("ngspice-"))
    lines = [
        "# Test vectors: ngspice, transient analysis from rest of an invented, generic circuit.",
        f"# tool: {version}; script: validation/scripts/make_ngspice_vectors.py",
        f"# expression: netlist in the script; trapezoidal integration, longest step {STEP}s; sampling: linearised to 1 ns, sample k at k ns",
        "# tolerance: of the full scale stated with the case: ngspice's own, from runs at twice the step",
    ]
    with tempfile.TemporaryDirectory() as folder:
        for name, source, words in SOURCES:
            for henries, farads in CIRCUITS:
                values = run(source, henries, farads, STEP, folder)
                coarse = run(source, henries, farads, "10p", folder)
                ks = list(range(1, 40)) + list(range(43, 199, 7))
                moved = max(abs(values[k] - coarse[k]) for k in ks)
                assert moved / 3 / 2.0 < TOLERANCE, (name, moved)
                print(name, henries, farads, "moved by", moved)
                lines += ["", f"case: {name}, {henries * 1e9:g} nH and {farads * 1e12:g} pF", f"signal: {words}", f"response: {response(henries, farads)}"]
                lines += ["full scale: 2.0", "start: 0.0", "rate: 1000000000.0", f"tolerance: {TOLERANCE!r}", "kind,where,volts"]
                lines += [f"sample,{k},{float(values[k])!r}" for k in ks]
    with open(OUT, "w", encoding="utf-8") as f:
        f.write("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
