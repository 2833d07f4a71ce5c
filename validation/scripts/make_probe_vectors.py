#!/usr/bin/env python3
"""Writes vectors of whole probe networks from ngspice, an independent circuit simulator. All element values are invented and generic.

Usage:  python3 make_probe_vectors.py          (needs the program ngspice)

Two kinds. "ac": small-signal analysis, complex numbers solved at each frequency in double precision; the tolerance is that of its
arithmetic. "tran": transient analysis by the trapezoidal rule, which is of second order; what halving the step moves is three times
the error left, and must be below the tolerance.

Elements (ohm, F, H; 0 leaves an element out): the source Rs || Cs, the lead L with R and a stray capacitance behind it, a divider
R1 || C1, the cable, a coupling capacitor, the input Rin || Cin. The source's voltage is that with nothing attached, so Cs stands
across Rs (Thevenin). The output is the voltage over Rin times the attenuation.
"""
import os
import subprocess
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
OUT = os.path.join(HERE, "..", "src", "test", "resources", "vectors", "probe-ngspice.csv")
KEYS = ["rs", "cs", "lead", "damping", "stray", "kind", "attenuation", "trimmer", "cable", "series", "coupling", "rin", "cin"]
HERTZ = [0.1, 1, 10, 100, 1e3, 1e4, 1e5, 1e6, 1e7, 5e7, 1e8, 1.6e8, 2.2e8, 3e8, 5e8, 1e9]
AC_TOLERANCE, TRAN_TOLERANCE = 1e-11, 1e-6

BASE = dict(rs=50, cs=0, lead=0, damping=0, stray=0, kind="divider", attenuation=10, trimmer=0, cable=85e-12, series=0, coupling=0, rin=1e6, cin=15e-12)


def case(name, **values):
    return name, {**BASE, **values}


CASES = [
    case("divider, trimmed"),
    case("divider, trimmer 5 % high", trimmer=0.05),
    case("divider, trimmer 10 % low, ideal source", rs=0, trimmer=-0.1),
    case("divider on a slow source of its own capacitance", rs=47e3, cs=3.3e-12, trimmer=0.02),
    case("divider with a ground lead", lead=150e-9),
    case("divider with a damped lead and stray capacitance", lead=100e-9, damping=30, stray=2e-12, trimmer=0.03),
    case("divider by 100 on a short cable", attenuation=100, cable=20e-12, rs=1e3),
    case("divider behind a coupling capacitor", coupling=15.9e-9),
    case("divider, lead, own capacitance, coupling capacitor", rs=330, cs=1.5e-12, lead=60e-9, damping=10, stray=1e-12, trimmer=-0.04, coupling=22e-9),
    case("x1 probe", kind="x1", attenuation=1, series=220, cable=90e-12, rs=600),
    case("x1 probe with a lead", kind="x1", attenuation=1, series=220, cable=90e-12, lead=120e-9),
    case("x1 probe behind a coupling capacitor", kind="x1", attenuation=1, series=150, cable=60e-12, rs=1e3, coupling=15.9e-9),
    case("direct, 50 ohm with some capacitance", kind="direct", attenuation=1, rin=50, cin=4e-12),
    case("direct, source of its own capacitance", kind="direct", attenuation=1, rs=10e3, cs=8e-12),
    case("direct, coupling capacitor ahead of 50 ohm", kind="direct", attenuation=1, rin=50, cin=4e-12, coupling=100e-9),
]

TRAN = {
    "divider, trimmer 5 % high": ("20n", "200u", "2u", "PULSE(0 1 5u 1u 1u 60u 400u)", "pulse(1.0, 5e-06, 6.1e-05, 1e-06, 1e-06)"),
    "divider with a damped lead and stray capacitance": ("5p", "100n", "1n", "PULSE(0 1 5n 2n 3n 40n 1)", "pulse(1.0, 5e-09, 4.25e-08, 2e-09, 3e-09)"),
    "x1 probe with a lead": ("10p", "300n", "3n", "PULSE(0 1 5n 4n 4n 120n 1)", "pulse(1.0, 5e-09, 1.24e-07, 4e-09, 4e-09)"),
    "divider, lead, own capacitance, coupling capacitor": ("5p", "100n", "1n", "SIN(0 1 70meg 5n)", "startingAt(delayed(sine(1.0, 70000000.0), 5e-09), 5e-09)"),
}


def netlist(v, source, commands):
    lines = ["* source, probe and input", f"Vs s 0 {source}"]
    node = "s"
    if v["rs"]:
        lines.append(f"Rs s t {v['rs']!r}")
        if v["cs"]:
            lines.append(f"Cs s t {v['cs']!r}")
        node = "t"
    if v["lead"]:
        if v["damping"]:
            lines.append(f"Rl {node} m {v['damping']!r}")
            node = "m"
        lines.append(f"Ll {node} h {v['lead']!r}")
        node = "h"
        if v["stray"]:
            lines.append(f"Cl h 0 {v['stray']!r}")
    if v["kind"] == "divider":
        r1 = (v["attenuation"] - 1) * 1e6
        c1 = (1 + v["trimmer"]) * v["rin"] * (v["cin"] + v["cable"]) / r1
        lines += [f"R1 {node} c {r1!r}", f"C1 {node} c {c1!r}", f"Cc c 0 {v['cable']!r}"]
        node = "c"
    elif v["kind"] == "x1":
        lines += [f"R1 {node} c {v['series']!r}", f"Cc c 0 {v['cable']!r}"]
        node = "c"
    if v["coupling"]:
        lines.append(f"Ca {node} i {v['coupling']!r}")
        node = "i"
    lines += [f"Ri {node} 0 {v['rin']!r}", f"Ci {node} 0 {v['cin']!r}", f"Eo out 0 {node} 0 {v['attenuation']!r}"]
    lines += [".options reltol=1e-7 abstol=1e-18 vntol=1e-12 chgtol=1e-22 gmin=1e-20 method=trap", ".control", "set noaskquit", "set numdgt=16"]
    return "\n".join(lines + commands + ["quit 0", ".endc", ".end", ""])


def run(folder, text):
    path = os.path.join(folder, "run.cir")
    with open(path, "w", encoding="utf-8") as f:
        f.write(text)
    subprocess.run(["ngspice", "-b", path], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    with open(os.path.join(folder, "out.txt"), encoding="utf-8") as f:
        return [[float(x) for x in line.split()] for line in f]


def small_signal(folder, v):
    out = os.path.join(folder, "out.txt")
    rows = []
    for hertz in HERTZ:
        got = run(folder, netlist(v, "DC 0 AC 1", [f"ac lin 1 {hertz!r} {hertz!r}", f"wrdata {out} v(out)"]))
        rows.append((hertz, got[0][1], got[0][2]))
    return rows


def transient(folder, v, step, stop, grid, source):
    out = os.path.join(folder, "out.txt")
    rows = run(folder, netlist(v, source, [f"tran {grid} {stop} 0 {step} uic", "linearize v(out)", f"wrdata {out} v(out)"]))
    return [(k, volts) for k, (_, volts) in enumerate(rows)]


def seconds(text):
    return float(text[:-1]) * {"u": 1e-6, "n": 1e-9, "p": 1e-12}[text[-1]]


def halved(step):
    return f"{float(step[:-1]) / 2!r}{step[-1]}"


def main():
    version = subprocess.run(["ngspice", "--version"], capture_output=True, text=True, check=True).stdout
    version = next(w for w in version.split() if w.startswith("ngspice-"))
    lines = [
        "# Test vectors: ngspice, whole networks of source, probe and input; invented, generic element values.",
        f"# tool: {version}; script with the netlist: validation/scripts/make_probe_vectors.py",
        "# ac: hertz, real and imaginary part of the output over the source's open-circuit voltage, small-signal analysis",
        "# tran: sample number, volts; transient analysis from rest, trapezoidal rule, linearised to the grid",
        "# tolerance: absolute; of ac the solver's arithmetic, of tran what the step leaves, from a run at twice the step",
    ]
    with tempfile.TemporaryDirectory() as folder:
        for name, v in CASES:
            lines += ["", f"case: {name}", *[f"{k}: {v[k]}" for k in KEYS], f"ac tolerance: {AC_TOLERANCE!r}"]
            lines += [f"ac,{hertz!r},{re!r},{im!r}" for hertz, re, im in small_signal(folder, v)]
            if name in TRAN:
                step, stop, grid, source, words = TRAN[name]
                fine = transient(folder, v, halved(step), stop, grid, source)
                coarse = transient(folder, v, step, stop, grid, source)
                moved = max(abs(a[1] - b[1]) for a, b in zip(fine, coarse))
                print(name, "moved by", moved)
                assert moved / 3 < TRAN_TOLERANCE, (name, moved)
                lines += [f"signal: {words}", f"rate: {1 / seconds(grid)!r}", f"tran tolerance: {TRAN_TOLERANCE!r}"]
                lines += [f"tran,{k},{volts!r}" for k, volts in fine[1:]]
    with open(OUT, "w", encoding="utf-8") as f:
        f.write("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
