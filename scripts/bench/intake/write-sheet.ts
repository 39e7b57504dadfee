import { once } from 'node:events';
import { createWriteStream } from 'node:fs';
import { atlasCounties } from '@/lib/geography/atlas';
import { createLocator } from '@/lib/geography/locate';
import { Random } from '@/lib/stats/random';

/** States of the invented sheet. */
export const STATES = ['KS', 'NE', 'SD', 'CO'] as const;

export const HEADINGS =
  "Sample #,Date collected,Date rec'd,State,County,Lat,Long,Location notes,Weed,Herbicide / Group,Rate,Plants treated,Plants alive,DAT,S check,Crop,Grower/Operation,OK to share,Remarks";

/** Weeds of the sheet and the actives that each is screened with: a row for each. */
const SCREENS = [
  ['kochia', ['glyphosate', 'dicamba', 'fluroxypyr', 'atrazine', 'thifensulfuron']],
  ['Palmer amaranth', ['glyphosate', 'mesotrione', 'fomesafen', 'atrazine']],
  ['waterhemp', ['glyphosate', 'imazethapyr', 'lactofen']],
  ['horseweed', ['glyphosate', 'cloransulam']],
] as const;

/** The fields of so many rows of an invented laboratory's sheet; every row is located by its point alone. */
export function* inventedRows(rows: number, seed: number): Generator<string[]> {
  const random = new Random(seed);
  const locator = createLocator(atlasCounties());
  const point = () => {
    for (;;) {
      const [lat, lon] = [37 + 8.9 * random.uniform(), -109 + 14.4 * random.uniform()];
      const county = locator.countyAt(lon, lat);
      if (county && STATES.some((state) => state === county.state)) return { lat, lon, state: county.state };
    }
  };
  let row = 0;
  for (let sample = 1; row < rows; sample++) {
    const { lat, lon, state } = point();
    const [weed, actives] = SCREENS[random.below(SCREENS.length)]!;
    const year = 2013 + random.below(12);
    const operation = `OP-${random.below(200_000)}`;
    const day = String(1 + random.below(28)).padStart(2, '0');
    for (const active of actives) {
      if (row++ === rows) break;
      const alive = random.uniform() < 0.6 ? 0 : random.below(40);
      yield [
        ...[
          `L-${sample}`,
          `${year}-09-${day}`,
          `${year}-10-12`,
          state,
          '',
          lat.toFixed(5),
          lon.toFixed(5),
          '',
          weed,
        ],
        ...[active, '1x', '40', String(alive), '28', 'Y', 'wheat', operation, 'Y', ''],
      ];
    }
  }
}

/** Writes the invented rows as CSV. */
export async function writeInventedSheet(
  path: string,
  { rows, seed }: { rows: number; seed: number },
): Promise<void> {
  await writeRows(path, HEADINGS, inventedRows(rows, seed));
}

/** Writes rows of plain fields as CSV below their headings, piece by piece. */
export async function writeRows(path: string, headings: string, rows: Iterable<string[]>): Promise<void> {
  const file = createWriteStream(path);
  let piece = `${headings}\n`;
  for (const fields of rows) {
    piece += `${fields.join(',')}\n`;
    if (piece.length < 65_536) continue;
    if (!file.write(piece)) await once(file, 'drain');
    piece = '';
  }
  file.end(piece);
  await once(file, 'finish');
}
