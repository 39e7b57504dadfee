import { Random } from '@/lib/stats/random';
import { HEADINGS, inventedRows, writeRows } from '../intake/write-sheet';

/** One invented sheet: what a laboratory sends of one season. */
export interface DeskSheet {
  rows: number;
  season: number;
  /** Begins the numbers of its samples, so that no two sheets have one in common. */
  prefix: string;
  seed: number;
}

/** Further columns, so that each filter of the results table has something to choose between. */
const MORE_HEADINGS = 'Design,Assay,Funder,Run,Replicate';
const CROPS = ['wheat', 'corn', 'soybean', 'sorghum', 'sunflower', 'fallow'];
const DESIGNS = ['submitted', 'submitted', 'submitted', 'random', 'follow-up', 'roadside'];
const FUNDERS = ['Wheat board', 'Corn board', 'Soybean board', ''];
const [SAMPLE, COLLECTED, RECEIVED, WEED, ALIVE, CROP] = [0, 1, 2, 8, 12, 15];

/** Writes an invented sheet as CSV: one row in 250 asks something, one in 500 is refused. */
export async function writeDeskSheet(path: string, sheet: DeskSheet): Promise<void> {
  await writeRows(path, `${HEADINGS},${MORE_HEADINGS}`, deskRows(sheet));
}

function* deskRows({ rows, season, prefix, seed }: DeskSheet): Generator<string[]> {
  const random = new Random(seed);
  const one = (of: readonly string[]) => of[random.below(of.length)]!;
  let last = { sample: '', more: [''], crop: '' };
  for (const fields of inventedRows(rows, seed)) {
    const sample = fields[SAMPLE!]!.replace('L-', prefix);
    if (sample !== last.sample)
      last = { sample, crop: one(CROPS), more: [one(DESIGNS), 'whole plant', one(FUNDERS)] };
    fields[SAMPLE!] = sample;
    for (const day of [COLLECTED!, RECEIVED!]) fields[day] = `${season}${fields[day]!.slice(4)}`;
    fields[CROP!] = last.crop;
    if (random.below(250) === 0) fields[WEED!] = 'pigweed';
    if (random.below(500) === 0) fields[ALIVE!] = '41';
    yield [...fields, ...last.more, `run ${random.below(40)}`, '1'];
  }
}
