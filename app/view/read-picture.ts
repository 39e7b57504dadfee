import { releaseByNumber } from '@/db/repositories/published';
import { mapSheet } from '@/lib/figures/map-sheet';
import { publicDatabase } from '../database';
import { languageOf } from '../messages/languages';
import { speechIn } from '../messages/texts';
import { mapLegend } from './map-legend';
import { mapPicture } from './map-picture';
import { reportOf } from './read-report';

export type PictureReading =
  | { state: 'ready'; svg: string; name: string }
  | { state: 'unknown'; why: string };

/**
 * The picture of a view that an address asks for, on a sheet with its legend, source and cautions. What the release does
 * not have is no picture: an address that is kept must never show something else.
 */
export async function readPicture(number: string, query: URLSearchParams): Promise<PictureReading> {
  const db = publicDatabase();
  const head = /^[1-9]\d{0,8}$/.test(number) ? await releaseByNumber(db, Number(number)) : null;
  if (!head || head.pairs.length === 0)
    return { state: 'unknown', why: 'There is no such release that stands.' };
  const language = languageOf(query.get('language') ?? 'en');
  if (!language) return { state: 'unknown', why: 'There is no such language here.' };
  const { texts } = speechIn(language);
  const report = await reportOf(db, head, Object.fromEntries(query));
  const [misfit] = report.misfits;
  if (misfit) return { state: 'unknown', why: texts.say.misfitWords(misfit) };
  const { title, about, svg, size } = mapPicture(texts, report, { stamp: null, prefix: 'picture-' });
  const { heading, ramp, states, notes } = mapLegend(texts, report);
  const sheet = mapSheet({
    ...{ map: svg, size, title, about, heading, ramp, states, notes },
    source: [`${head.programme}, ${head.region}.`, texts.map.source(head.number, texts.day(head.date))],
    cautions: texts.cautions.all.join(' '),
    stamp: head.simulated ? texts.cautions.simulated : null,
  });
  const { species, group, layer } = report.view;
  return {
    state: 'ready',
    svg: sheet.svg,
    name: `release-${head.number}-${species}-${group}-${layer}`.toLowerCase(),
  };
}
