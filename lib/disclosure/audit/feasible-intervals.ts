import { loadSolver } from '../solver';
import { Attacker } from './attacker';
import { componentsOf, type LinearSystem, propagate, type Row } from './linear-system';

/** A cell as a reader sees it: `value` null where withheld. */
export interface SeenCell {
  id: string;
  value: number | null;
  /** Fewest that the reader holds possible; 0 unless given. */
  least?: number;
}

/** A sum that the reader knows to hold. */
export interface SeenSum {
  total: string;
  parts: readonly string[];
}

/**
 * What a reader with linear programming can conclude about each cell of linked tables of non-negative whole numbers.
 *
 * @returns for each cell its feasible interval [low, high]; [value, value] where published; high Infinity where nothing
 *   bounds it. Bounds are those of the linear programs, rounded inwards to whole numbers.
 * @throws Error where the sums contradict each other, or name a cell that is not given
 * @source two linear programs a cell: Hundepool et al., Handbook on Statistical Disclosure Control, ch. 4
 */
export async function feasibleIntervals(
  cells: readonly SeenCell[],
  sums: readonly SeenSum[],
): Promise<Map<string, [number, number]>> {
  const highs = await loadSolver();
  const column = new Map(cells.map(({ id }, i) => [id, i]));
  const columnOf = (id: string) => {
    const found = column.get(id);
    if (found === undefined) throw new Error(`a sum names cell ${id}, which is not given. Give every cell.`);
    return found;
  };
  const rows = sums.map(
    ({ total, parts }): Row => ({
      columns: [columnOf(total), ...parts.map(columnOf)],
      coefficients: [-1, ...parts.map(() => 1)],
      low: 0,
      high: 0,
    }),
  );
  const system: LinearSystem = {
    lower: cells.map(({ value, least }) => value ?? least ?? 0),
    upper: cells.map(({ value }) => value ?? Number.POSITIVE_INFINITY),
    rows,
  };
  if (!propagate(system)) throw contradiction();
  const bounds = cells.map((_, i): [number, number] => [system.lower[i]!, system.upper[i]!]);
  for (const component of componentsOf(system)) {
    const attacker = new Attacker(highs, system, component);
    try {
      for (const c of component.columns) {
        const low = attacker.extreme([[c, 1]], -1);
        const high = attacker.extreme([[c, 1]], 1);
        if (!low || !high) throw contradiction();
        bounds[c] = [Math.ceil(low.value - 1e-5) + 0, Math.floor(high.value + 1e-5)];
      }
    } finally {
      attacker.dispose();
    }
  }
  return new Map(cells.map(({ id }, i) => [id, bounds[i]!]));
}

function contradiction(): Error {
  return new Error('the sums contradict each other: no whole numbers from 0 on fit them. Check the table.');
}
