import { COLUMNS } from './sheet';
import type { Truth } from './truth';

/** The text that lies beside generated sheets: first of all, that they are simulated. */
export function readmeOf({ programme, day, size, seed, region, seasons }: Truth): string {
  const first = seasons[0]!.season;
  const last = seasons.at(-1)!;
  const unfinished = last.open ? ` Season ${last.season} is under way: half of its results are in.` : '';
  return `# Simulated data

Everything in this folder is simulated. No record says anything about any real field, farm or county; outlines and
names of counties are the Census Bureau's, all else is invented, boards and operations included.

${programme}: ${region.counties} counties, seasons ${first} to ${last.season}, as of ${day}.${unfinished}
Size \`${size}\`, seed ${seed}: \`npm run generate -- --size ${size} --seed ${seed} --out FOLDER\` makes the same bytes again.

- \`simulated-SEASON.csv\`: the laboratory's sheet of a season, one record for each population × herbicide × rate.
  Headings: ${COLUMNS.map((column) => `\`${column}\``).join(', ')}.
- \`truth.json\`: what was planted, and each altered record with its kind, what its cells said before, and what intake
  should make of it. Records are counted from 1, without the heading.

In records of a molecular assay the two counts are plants assayed and plants that carry the mutation.
`;
}
