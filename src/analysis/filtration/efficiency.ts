/**
 * What a filter's beta says (ISO 16889, ISO 19438; by secondary sources, the standards themselves were not read): of so many particles as
 * large as a size, or larger, that come, one goes through. It was measured on a stand with test dust and a steady flow; on board it is less.
 */

/** The share of the particles that is held, 0 to 1: (β - 1) / β. Undefined for what is no beta: nothing sheds more than comes. */
export function efficiencyOf(beta: number): number | undefined {
    return beta >= 1 && Number.isFinite(beta) ? (beta - 1) / beta : undefined;
}

/** β from counts before and after, of the same size and in the same unit. Undefined when nothing came through: then it is only known to be more than `before`. */
export function betaOf(before: number, after: number): number | undefined {
    const beta = before / after;
    return before >= 0 && after > 0 && Number.isFinite(beta) ? beta : undefined;
}

/**
 * The β of filters one after the other, at one size: they multiply. That is the best of it: the second meets finer dirt than in its test.
 * Without filters 1; undefined when one of them is no beta, or the product is past all measure.
 */
export function inSeries(betas: readonly number[]): number | undefined {
    const product = betas.reduce((all, beta) => all * beta, 1);
    return betas.every((beta) => efficiencyOf(beta) !== undefined) && Number.isFinite(product) ? product : undefined;
}
