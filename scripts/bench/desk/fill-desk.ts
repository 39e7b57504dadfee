import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { StaffDatabase } from '@/db/clients';
import { getProgramme, setProgramme } from '@/db/repositories/programme';
import { importSheet } from '@/lib/jobs/import-sheet';
import { STATES } from '../intake/write-sheet';
import { writeDeskSheet } from './write-desk-sheet';

const FIRST_SEASON = 2015;
const SEASONS = 10;
const LABORATORIES = ['Plains Laboratory', 'Valley Laboratory'];
const AS_OF = '2026-11-20';

/** Fills an empty database with invented sheets, one for each season and laboratory, by the import itself. */
export async function fillDesk(db: StaffDatabase, rows: number): Promise<void> {
  await setProgramme(db, {
    name: 'Invented',
    regionName: 'Invented',
    states: [...STATES],
    simulated: true,
    laboratory: LABORATORIES[0]!,
  });
  const programme = (await getProgramme(db))!;
  const folder = mkdtempSync(join(tmpdir(), 'fencerow-bench-'));
  try {
    const each = Math.ceil(rows / (SEASONS * LABORATORIES.length));
    let number = 0;
    for (let season = FIRST_SEASON; season < FIRST_SEASON + SEASONS; season++) {
      for (const laboratory of LABORATORIES) {
        const path = join(folder, `${laboratory} ${season}.csv`);
        const prefix = `${laboratory[0]}${season % 100}-`;
        await writeDeskSheet(path, { rows: each, season, prefix, seed: ++number });
        await importSheet(db, { path, programme, laboratory, asOf: AS_OF, by: 'bench' });
      }
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
