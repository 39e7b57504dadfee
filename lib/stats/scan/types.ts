/** Where the places lie: degrees on the sphere (`x` longitude, `y` latitude), or a plane of any one unit. */
export interface ScanPoints {
  x: ArrayLike<number>;
  y: ArrayLike<number>;
  metric: 'great circle' | 'plane';
}

/** `bernoulli`: resistant among tested. `poisson`: cases in a population or in any other measure of expectation. */
export type ScanModel = 'bernoulli' | 'poisson';

/** Look for too many (`high`), too few (`low`), or either. */
export type ScanDirection = 'high' | 'low' | 'both';

export interface ScanOptions {
  /** Each the largest part of all tested that a window may hold, in (0, 1); answered separately. Default: half, quarter. */
  shares?: readonly number[];
  /** Default `high`. */
  direction?: ScanDirection;
  /** A window holds at least so many places. Default 1. */
  smallestPlaces?: number;
  /** A window holds at least so many tested (populations). Default 0. */
  smallestTested?: number;
  /** Largest radius, in km (`great circle`) or the plane's unit. Default: no limit. */
  largestRadius?: number;
}

export interface SeasonScanOptions extends ScanOptions {
  /** A window lasts at most so many seasons in a row. Default: half of the seasons, rounded down. */
  longestSeasons?: number;
}

export interface ScanRun {
  seed: number;
  /** Monte Carlo replicates, as 999. */
  replicates: number;
  /** At most so many windows at each limit, the strongest and those without overlap. Default 10. */
  most?: number;
}

/** A circle, in space and time a cylinder. Indices are those of the input. */
export interface ScanWindow {
  centre: number;
  /** Ascending. */
  places: Int32Array;
  /** Distance of the farthest member: km, or the plane's unit. */
  radius: number;
  /** First and last season. */
  seasons: readonly [number, number];
  /** `null` in the season permutation, which needs no tested. */
  tested: number | null;
  resistant: number;
  expected: number;
  logLikelihoodRatio: number;
  /** Observed to expected inside over the same outside; `null` where all resistant are inside. */
  relativeRisk: number | null;
  /** (b + 1) / (B + 1) with b of B replicates whose strongest window is at least as strong: in (0, 1]. */
  p: number;
  /** The tail of a Gumbel distribution fitted to the replicates, in (0, 1]; `null` where they do not vary. */
  pGumbel: number | null;
}

export interface ScanAtLimit {
  share: number;
  /** The strongest first; then each the strongest that shares no place with those before. Empty where none stands out. */
  windows: ScanWindow[];
}

export interface ScanResult {
  /** One for each of `shares`, in their order. */
  limits: ScanAtLimit[];
  /** Windows looked at under the largest share. */
  windowsScanned: number;
  placesScanned: number;
  /** Places without anything tested: neither centre nor member. */
  placesLeftOut: number;
  resistant: number;
  replicates: number;
}

/** Circles around each place that takes part. Places are numbered 0 … `places.length` − 1 among those. */
export interface Circles {
  /** Their indices in the input, ascending. */
  readonly places: Int32Array;
  /**
   * `order[offsets[i]] … order[offsets[i + 1] − 1]`: places from centre i outwards. `p` where a circle ends with place
   * p, `~p` where it does not (the next is as far away, or too few are inside).
   */
  readonly order: Int32Array;
  readonly offsets: Int32Array;
  /** For each share and centre: where in `order` the circles within that share end. */
  readonly ends: readonly Int32Array[];
  /** Number of circles. */
  readonly count: number;
}

/** Seasons `from` … `to`, and what each place adds to the size of a window in them. */
export interface Slice {
  readonly from: number;
  readonly to: number;
  readonly size: Float64Array;
}

/** Everything a scan needs but the replicates: plain data, so that another thread can be handed it. */
export interface ScanPlan {
  readonly model: ScanModel;
  /** How a replicate is made: resistant among tested, cases over expectation, or seasons among cases. */
  readonly allocation: 'among tested' | 'over expected' | 'among seasons';
  readonly points: { x: Float64Array; y: Float64Array; metric: ScanPoints['metric'] };
  readonly circles: Circles;
  readonly slices: readonly Slice[];
  readonly seasons: number;
  /** place × season, season last, of the places that take part. */
  readonly tested: Float64Array;
  readonly resistant: Int32Array;
  readonly totalSize: number;
  /** Largest size of a window. */
  readonly largestSize: number;
  /** All sizes are whole numbers. */
  readonly wholeSizes: boolean;
  readonly totalResistant: number;
  readonly shares: readonly number[];
  readonly directions: readonly ('high' | 'low')[];
  readonly smallestTested: number;
}
