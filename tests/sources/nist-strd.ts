/**
 * Certified data of the NIST Statistical Reference Datasets, linear regression: Norris, NoInt1, NoInt2.
 *
 * @source NIST StRD (US Government), Norris.dat, NoInt1.dat, NoInt2.dat, as kept in mathnet/mathnet-numerics `data/NIST/`;
 *   certified to some 15 digits
 */
type Pairs = readonly (readonly [x: number, y: number])[];

export const norris = {
  pairs: [
    [0.2, 0.1],
    [337.4, 338.8],
    [118.2, 118.1],
    [884.6, 888.0],
    [10.1, 9.2],
    [226.5, 228.1],
    [666.3, 668.5],
    [996.3, 998.5],
    [448.6, 449.1],
    [777.0, 778.9],
    [558.2, 559.2],
    [0.4, 0.3],
    [0.6, 0.1],
    [775.5, 778.1],
    [666.9, 668.8],
    [338.0, 339.3],
    [447.5, 448.9],
    [11.6, 10.8],
    [556.0, 557.7],
    [228.1, 228.3],
    [995.8, 998.0],
    [887.6, 888.8],
    [120.2, 119.6],
    [0.3, 0.3],
    [0.3, 0.6],
    [556.8, 557.6],
    [339.1, 339.3],
    [887.2, 888.0],
    [999.0, 998.5],
    [779.0, 778.9],
    [11.1, 10.2],
    [118.3, 117.6],
    [229.2, 228.9],
    [669.1, 668.4],
    [448.9, 449.2],
    [0.5, 0.2],
  ] satisfies Pairs as Pairs,
  at0: -0.262323073774029,
  uAt0: 0.232818234301152,
  slope: 1.00211681802045,
  uSlope: 0.000429796848199937,
  scatter: 0.884796396144373,
};

/** Lines through the origin. */
export const noInt1 = {
  pairs: Array.from({ length: 11 }, (_, i) => [60 + i, 130 + i] as const) as Pairs,
  slope: 2.07438016528926,
  uSlope: 0.0165289256198347,
  scatter: 3.56753034006338,
};

export const noInt2 = {
  pairs: [
    [4, 3],
    [5, 4],
    [6, 4],
  ] satisfies Pairs as Pairs,
  slope: 0.727272727272727,
  uSlope: 0.0420827318078432,
  scatter: 0.369274472937998,
};
