import type { PublicDatabase } from '@/db/clients/public';
import {
  chosenCells,
  chosenFindings,
  releasedActiveCells,
  releasedMultipleCells,
} from '@/db/repositories/published';
import type { Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';
import type { Period } from '@/lib/vocabulary/terms';
import { publicDatabase } from '../database';
import { regionOf } from '../region';
import { askedRelease, type NoneShown, type ShownRelease } from './asked-release';
import { findWeed } from './find-weed';
import { orUnreachable } from './or-unreachable';
import type { Parameters } from './parse-view';
import { pickWindow } from './pick-window';
import { type WeedReport, weedReport } from './weed-report';

export type WeedReading =
  | { state: 'ready'; report: WeedReport }
  | ({ state: 'unknown' } & ShownRelease)
  | NoneShown;

/** What a release shows of the weed that an address names, in the window that it asks for. */
export async function readWeed(asked: string, parameters: Parameters): Promise<WeedReading> {
  return orUnreachable(async (): Promise<WeedReading> => {
    const db = publicDatabase();
    const release = await askedRelease(db, parameters);
    if (release.state !== 'ready') return release;
    const { head, newer, errata } = release;
    const species = findWeed(asked, head);
    if (!species) return { state: 'unknown', head, newer, errata };
    const { window, misfits } = pickWindow(parameters, head);
    if (!window) return { state: 'empty' };
    const pairs = head.pairs.filter((pair) => pair.species === species);
    const [cells, findings, multipleCells, ...activeCells] = await Promise.all([
      cellsOf(db, head, window, species),
      chosenFindings(db, head.number, { species }),
      releasedMultipleCells(db, head.number, species),
      ...pairs.map((pair) => releasedActiveCells(db, head.number, pair)),
    ]);
    const read = { cells, findings, multipleCells, activeCells: activeCells.flat() };
    const shown = { head, newer, errata, region: regionOf(head) };
    const report = weedReport({ ...shown, species, window, misfits, ...read });
    return { state: 'ready', report };
  });
}

export type WeedsReading =
  | ({ state: 'ready'; region: Region; window: Period; weeds: WeedReport[] } & ShownRelease)
  | NoneShown;

/** What a release shows of each of its weeds, in its newest window. */
export async function readWeeds(parameters: Parameters): Promise<WeedsReading> {
  return orUnreachable(async (): Promise<WeedsReading> => {
    const db = publicDatabase();
    const release = await askedRelease(db, parameters);
    if (release.state !== 'ready') return release;
    const { head, newer, errata } = release;
    const window = head.windows.at(-1);
    if (!window) return { state: 'empty' };
    const region = regionOf(head);
    const cells = await cellsOf(db, head, window);
    const weeds = [...new Set(head.pairs.map(({ species }) => species))].map((species) =>
      weedReport({ head, newer, errata, region, species, window, misfits: [], cells, ...NOTHING_ELSE }),
    );
    return { state: 'ready', head, newer, errata, region, window, weeds };
  });
}

const NOTHING_ELSE = { findings: [], activeCells: [], multipleCells: [] };

function cellsOf(db: PublicDatabase, head: ReleaseHead, period: Period, species?: string) {
  return chosenCells(db, head.number, { species, period, placeKinds: ['region', 'state', 'district'] });
}
