import type { Highs } from 'highs';
import { cellKeyText } from '@/lib/disclosure/cell-order';
import { type LinkedTable, linkTable } from '@/lib/disclosure/linked-table';
import { Places } from '@/lib/disclosure/places';
import { isPrimary } from '@/lib/disclosure/primary';
import type { SeasonTable } from '@/lib/disclosure/types';
import { fixedWindows } from '@/lib/disclosure/windows';
import type { Region } from '@/lib/geography/types';
import type { GateOnly } from '@/lib/jobs/gate-only';

/**
 * The fewest cells of one pair that any gate must withhold of counties and areas beside those that fail the rule, where it
 * shows all that passes of districts, states and the region: no published sum may have one withheld cell alone, since the
 * sum would tell it exactly. That is necessary and not enough, so it is a lower bound. An integer program for each part of
 * the linked tables that shown totals cut off from the others, each solved to its optimum.
 *
 * @throws Error where a program is not solved to its optimum
 */
export function leastWithheld(
  highs: Highs,
  gate: GateOnly,
  region: Region,
  seasons: readonly number[],
): number {
  const table = tableOf(gate, region, seasons);
  const primary = table.cells.map((cell) => isPrimary(cell, gate.policy));
  const mayHide = table.cells.map(
    ({ placeKind }, i) => primary[i]! || placeKind === 'county' || placeKind === 'area',
  );
  return partsOf(table, mayHide)
    .filter((part) => part.some((cell) => primary[cell]))
    .reduce((sum, part) => sum + fewest(highs, table, part, primary, mayHide), 0);
}

function tableOf({ cells, cube, policy }: GateOnly, region: Region, seasons: readonly number[]): LinkedTable {
  const windows = fixedWindows(seasons[0]!, seasons, policy.windowLength);
  const offered = (kind: SeasonTable['placeKind']) =>
    new Set(cube.seasonTables.filter(({ placeKind }) => placeKind === kind).map(({ first }) => first));
  const given = new Set(cube.cells.map((cell) => cellKeyText(cell)));
  const linked = cells.filter(
    (cell) => cell.assay === 'whole plant' && cell.part?.of !== 'active' && given.has(cellKeyText(cell)),
  );
  const frame = { places: new Places(region, cube.areas), windows, openSeason: null };
  return linkTable(linked, {
    ...frame,
    seasons: { district: offered('district'), county: offered('county') },
  });
}

/** Cells that hang together by sums, where those that stay shown are constants. */
function partsOf(table: LinkedTable, mayHide: readonly boolean[]): number[][] {
  const seen = new Set<number>();
  return table.cells.flatMap((_, start) => {
    if (!mayHide[start] || seen.has(start)) return [];
    const part: number[] = [];
    const waiting = [start];
    seen.add(start);
    for (let cell = waiting.pop(); cell !== undefined; cell = waiting.pop()) {
      part.push(cell);
      for (const other of table.sumsOf[cell]!.flatMap((s) => membersOf(table, s))) {
        if (!mayHide[other] || seen.has(other)) continue;
        seen.add(other);
        waiting.push(other);
      }
    }
    return [part];
  });
}

function fewest(
  highs: Highs,
  table: LinkedTable,
  part: readonly number[],
  primary: readonly boolean[],
  mayHide: readonly boolean[],
): number {
  const others = part.filter((cell) => !primary[cell]);
  if (others.length === 0) return 0;
  const sums = [...new Set(part.flatMap((cell) => table.sumsOf[cell]!))];
  const rows = sums.flatMap((s) => {
    const members = membersOf(table, s).filter((cell) => mayHide[cell]);
    return members.map((cell) => {
      const rest = members.filter((other) => other !== cell).map((other) => `+ y${other}`);
      return `${rest.join(' ')} - y${cell} >= 0`;
    });
  });
  const fixed = part.filter((cell) => primary[cell]).map((cell) => `y${cell} = 1`);
  const objective = others.map((cell) => `y${cell}`).join(' + ');
  const program = [
    ...['Minimize', ` obj: ${objective}`, 'Subject To', ...rows.map((row, i) => ` r${i}: ${row}`)],
    ...['Bounds', ...fixed.map((line) => ` ${line}`)],
    ...['Binary', ...others.map((cell) => ` y${cell}`), 'End'],
  ].join('\n');
  const { Status, ObjectiveValue } = highs.solve(program);
  if (Status !== 'Optimal') throw new Error(`A lower bound was not found: the solver says “${Status}”.`);
  return Math.round(ObjectiveValue);
}

function membersOf(table: LinkedTable, s: number): number[] {
  const { total, parts } = table.sums[s]!;
  return [total, ...parts];
}
