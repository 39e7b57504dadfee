import {
  chosenCells,
  chosenFindings,
  findings,
  releasedCells,
  releasedCropCells,
  releasedMultipleCells,
} from '@/db/repositories/published';
import type { MatchedChange } from '@/lib/findings/types';
import { publicDatabase } from '../database';
import { regionOf } from '../region';
import { askedRelease, type NoneShown } from './asked-release';
import { orUnreachable } from './or-unreachable';
import type { Parameters } from './parse-view';
import { type TrendsReport, trendsReport } from './trends-report';
import { parseTrendsView } from './trends-view';

export type TrendsReading = { state: 'ready'; report: TrendsReport } | NoneShown;

/** What a release shows over its seasons of the weed, group and place that an address asks for. */
export async function readTrends(parameters: Parameters): Promise<TrendsReading> {
  return orUnreachable(async (): Promise<TrendsReading> => {
    const db = publicDatabase();
    const asked = await askedRelease(db, parameters);
    if (asked.state !== 'ready') return asked;
    const { head, newer, errata } = asked;
    const region = regionOf(head);
    const view = parseTrendsView(parameters, head, region);
    const [cells, wide, found, multipleCells, cropCells, compared] = await Promise.all([
      releasedCells(db, head.number, view.pair),
      chosenCells(db, head.number, { placeKinds: ['region'] }),
      findings(db, head.number, view.pair),
      releasedMultipleCells(db, head.number, view.pair.species),
      releasedCropCells(db, head.number, view.pair),
      chosenFindings(db, head.number, { kind: 'matched change' }),
    ]);
    const changes = compared.filter((one): one is MatchedChange => one.kind === 'matched change');
    const input = {
      head,
      newer,
      errata,
      region,
      ...view,
      cells,
      wide,
      findings: found,
      multipleCells,
      cropCells,
      changes,
    };
    return { state: 'ready', report: trendsReport(input) };
  });
}
