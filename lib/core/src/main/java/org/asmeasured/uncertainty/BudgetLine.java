package org.asmeasured.uncertainty;

/**
 * One line of an uncertainty budget.
 *
 * @param input the input
 * @param estimate its estimate, in its unit
 * @param standardUncertainty u(x_i), in its unit
 * @param sensitivity c_i, the output's unit per the input's
 * @param contribution |c_i| u(x_i), in the output's unit
 * @param share c_i u_i times the sum over j of r_ij c_j u_j, over the square of the combined
 *     standard uncertainty: for an independent input the share of the variance; the shares of all
 *     inputs add up to 1; 0 if the combined standard uncertainty is 0
 */
public record BudgetLine(
    Input input,
    double estimate,
    double standardUncertainty,
    double sensitivity,
    double contribution,
    double share) {

  /**
   * Whether the sensitivity is zero, so that to the first order the input does not count.
   *
   * @return true if so
   */
  public boolean insensitive() {
    return sensitivity == 0;
  }
}
