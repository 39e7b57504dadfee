import { releasedCells } from '@/db/repositories/published';
import { cellsTable } from '@/lib/release/files/cells-table';
import type { Pair } from '@/lib/vocabulary/terms';
import type { Context } from './endpoint';

type Row = Record<string, unknown>;

/** Lines of the public table by release and pair: a release never changes, so they are made once. Oldest first. */
const kept = new Map<string, Row[]>();
const MOST_KEPT = 60;

/** The lines of the table of a release that are of one species × group, as its files hold them. */
export async function cellRows({ db, head, region }: Context, pair: Pair): Promise<Row[]> {
  const key = `${head!.number}|${pair.species}|${pair.group}`;
  const known = kept.get(key);
  if (known) return known;
  const cells = await releasedCells(db, head!.number, pair);
  const { fields, rows } = cellsTable(
    { head: { ...head!, pairs: [pair] }, cube: { cells } },
    head!.number,
    region!,
  );
  const made = rows.map((row) => Object.fromEntries(row.map((value, i) => [fields[i]!.name, value])));
  kept.set(key, made);
  if (kept.size > MOST_KEPT) kept.delete(kept.keys().next().value!);
  return made;
}
