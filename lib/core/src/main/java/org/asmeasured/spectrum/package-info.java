/**
 * Spectra of records, and the harmonics in them; the same readings of the truth.
 *
 * <p><b>The idea.</b> A {@link org.asmeasured.spectrum.SpectrumMethod} makes a {@link
 * org.asmeasured.spectrum.Spectrum} of a record: the mean square of every line k rate/N, from which
 * all scales follow. A {@link org.asmeasured.spectrum.HarmonicMethod} finds in it a fundamental and
 * its harmonics, folded to where they stand: {@link org.asmeasured.spectrum.Harmonics}. {@link
 * org.asmeasured.spectrum.SpectrumReadings} read these of a record, and of a waveform from its
 * Fourier coefficients, so that the difference is what the capture did.
 *
 * <p><b>Spectrum.</b> With weights w<sub>n</sub> of a {@link org.asmeasured.spectrum.Window} and
 * X<sub>k</sub> = sum of w<sub>n</sub> v<sub>n</sub> e<sup>-2 pi j k n/N</sup>, the mean square of
 * line k on one side is 2 |X<sub>k</sub>|<sup>2</sup>/(sum of w)<sup>2</sup>, without the 2 at zero
 * and at half the rate; the density is that divided by the noise bandwidth, rate (sum of
 * w<sup>2</sup>)/(sum of w)<sup>2</sup>. A line wants the first, noise the second: see {@link
 * org.asmeasured.spectrum.Scale}. Over segments both are means (P. D. Welch, IEEE Trans. Audio
 * Electroacoustics 15 (1967) 70).
 *
 * <p><b>Tones.</b> A tone between two lines is placed by the ratio of the two, and lifted by what
 * the window leaves there, both from the transform of the window for that number of points. Two
 * tones nearer than half a main lobe (as many bins as the window has coefficients) cannot be told
 * apart; nor can one that is nearer than that to zero, or nearer than half of it to half the rate.
 *
 * <p><b>Harmonics</b> (IEEE Std 1057 and 1241, definitions of THD, SINAD, SFDR, noise floor and
 * effective bits; clauses from memory). With A<sub>1</sub> the RMS value of the fundamental,
 * A<sub>n</sub> those of the harmonics up to a stated order, each at its alias, and the density S
 * of the lines that belong to no tone:
 *
 * <table>
 * <caption>Figures</caption>
 * <tr><th>figure</th><th>definition</th></tr>
 * <tr><td>THD</td><td>root of the sum of A<sub>n</sub><sup>2</sup>, divided by A<sub>1</sub>; a plain number</td></tr>
 * <tr><td>noise</td><td>root of the mean of S times half the rate, V RMS</td></tr>
 * <tr><td>noise floor</td><td>root of the mean of S, V/sqrt(Hz)</td></tr>
 * <tr><td>noise and distortion (NAD)</td><td>root of noise<sup>2</sup> + sum of A<sub>n</sub><sup>2</sup>, V RMS</td></tr>
 * <tr><td>SINAD, SNR</td><td>20 lg(A<sub>1</sub>/NAD), 20 lg(A<sub>1</sub>/noise), dB</td></tr>
 * <tr><td>SFDR</td><td>20 lg of A<sub>1</sub> to the strongest other tone, harmonic or not, dB</td></tr>
 * <tr><td>effective bits</td><td>lb(full scale/(NAD root of 12)), or (SINAD - 1.76 dB)/6.02 dB for a sine that fills the range</td></tr>
 * </table>
 *
 * <p>What tones leak into the lines that are counted as noise is known from the window, and taken
 * off. Noise under a tone is inferred from the lines that are free; if these are less than a
 * quarter, it is not. Noise in the line of a harmonic is read as that harmonic: THD has a floor
 * near the root of (harmonics x noise bandwidth x S)/A<sub>1</sub>.
 *
 * <p><b>Harmonics that fold onto one another</b>, onto the fundamental, the mean or their own image
 * say so ({@link org.asmeasured.spectrum.Tone#over}), and THD is then not taken. In noise and
 * distortion a shared line counts once, and what lies on the fundamental or the mean counts with
 * these.
 *
 * <p><b>Truth.</b> The lines of a waveform that repeats, by integrals over one period between its
 * knots, to 1e-12 of its RMS value. The fundamental is its strongest line, the lowest of equal
 * ones, or the given one. It holds no noise: noise floor 0 V/sqrt(Hz), and a sine has THD 0 and
 * noise and distortion 0 V. Ratios to nothing have no bound, and are not taken; what is below 1e-12
 * of the fundamental is nothing. What is neither fundamental nor one of the counted harmonics is
 * noise here as in a record.
 *
 * <p><b>Accuracy.</b> Whole cycles in a record: 1e-12 in every window, for the transform errs by
 * 1e-15 of the strongest line (2e-13 for lengths with a prime factor from 11 to 199). Between the
 * lines: what other tones, and the tone's own negative frequency, leave there, at most the highest
 * side lobe of the window; of noise and distortion, 120 dB below the fundamental with
 * Blackman-Harris of four terms.
 *
 * <p><b>Limits of validity.</b> A fundamental that is looked for is taken to be below half the
 * rate; one above must be given. A tone that wanders in frequency or amplitude is no line. Values
 * below 1e-140 V are nothing.
 */
package org.asmeasured.spectrum;
