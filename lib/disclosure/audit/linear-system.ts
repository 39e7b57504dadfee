/** Unknown numbers with bounds, and rows low ≤ Σ coefficient × unknown ≤ high. */
export interface LinearSystem {
  lower: number[];
  upper: number[];
  rows: Row[];
}

export interface Row {
  columns: number[];
  coefficients: number[];
  low: number;
  high: number;
}

const EPS = 1e-7;

/**
 * Tightens the bounds of whole-number unknowns row by row until nothing changes or `passes` are done. Catches
 * every value that follows by simple subtraction; what it leaves is for the linear programs.
 *
 * @returns false where the rows contradict each other
 */
export function propagate(system: LinearSystem, passes = 12): boolean {
  for (let pass = 0, changed = true; changed && pass < passes; pass++) {
    changed = false;
    for (const row of system.rows) {
      const outcome = tighten(system, row);
      if (outcome === 'contradiction') return false;
      if (outcome === 'tighter') changed = true;
    }
  }
  return true;
}

function tighten(system: LinearSystem, row: Row): 'contradiction' | 'tighter' | 'same' {
  const { lower, upper } = system;
  let sums = activity(system, row);
  if (sums.least() > row.high + EPS || sums.most() < row.low - EPS) return 'contradiction';
  let outcome: 'tighter' | 'same' = 'same';
  for (const [i, column] of row.columns.entries()) {
    const c = row.coefficients[i]!;
    const [atLeast, atMost] = c > 0 ? [lower[column]!, upper[column]!] : [upper[column]!, lower[column]!];
    // The others at their least leave the most room for this one, and the other way round.
    const room = (row.high - sums.least(c * atLeast)) / c;
    const demand = (row.low - sums.most(c * atMost)) / c;
    const newLower = Math.ceil((c > 0 ? demand : room) - EPS);
    const newUpper = Math.floor((c > 0 ? room : demand) + EPS);
    if (!(newLower > lower[column]!) && !(newUpper < upper[column]!)) continue;
    if (newLower > lower[column]!) lower[column] = newLower;
    if (newUpper < upper[column]!) upper[column] = newUpper;
    if (lower[column]! > upper[column]!) return 'contradiction';
    sums = activity(system, row);
    outcome = 'tighter';
  }
  return outcome;
}

/** Least and most that a row can come to within the bounds, with or without one term of it. */
function activity({ lower, upper }: LinearSystem, { columns, coefficients }: Row) {
  const finite = { least: 0, most: 0 };
  const endless = { least: 0, most: 0 };
  for (const [i, column] of columns.entries()) {
    const c = coefficients[i]!;
    const least = c * (c > 0 ? lower : upper)[column]!;
    const most = c * (c > 0 ? upper : lower)[column]!;
    if (Number.isFinite(least)) finite.least += least;
    else endless.least += 1;
    if (Number.isFinite(most)) finite.most += most;
    else endless.most += 1;
  }
  const without = (end: 'least' | 'most', term: number) => {
    const others = endless[end] - (Number.isFinite(term) ? 0 : 1);
    if (others > 0) return end === 'least' ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
    return finite[end] - (Number.isFinite(term) ? term : 0);
  };
  return { least: (term = 0) => without('least', term), most: (term = 0) => without('most', term) };
}

/** Free columns that rows connect, and the rows in which they stand. */
export interface Component {
  columns: number[];
  rows: Row[];
}

/** The parts of a system that have nothing to do with each other; rows without a free column are in none. */
export function componentsOf(system: LinearSystem): Component[] {
  const components = connectedColumns(system).map((columns): Component => ({ columns, rows: [] }));
  const own = new Map(components.flatMap((one) => one.columns.map((column) => [column, one] as const)));
  for (const row of system.rows) {
    const free = row.columns.find((column) => own.has(column));
    if (free !== undefined) own.get(free)!.rows.push(row);
  }
  return components;
}

/** Groups of columns that rows connect; fixed columns connect nothing and are left out. */
function connectedColumns({ lower, upper, rows }: LinearSystem): number[][] {
  const root = lower.map((_, i) => i);
  const find = (i: number): number => {
    let at = i;
    while (root[at] !== at) {
      root[at] = root[root[at]!]!;
      at = root[at]!;
    }
    return at;
  };
  const isFree = (column: number) => lower[column]! < upper[column]!;
  for (const { columns } of rows) {
    const free = columns.filter(isFree);
    for (const column of free) root[find(column)] = find(free[0]!);
  }
  const groups = new Map<number, number[]>();
  for (let column = 0; column < lower.length; column++) {
    if (!isFree(column)) continue;
    const list = groups.get(find(column));
    if (list) list.push(column);
    else groups.set(find(column), [column]);
  }
  return [...groups.values()];
}
