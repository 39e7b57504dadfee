import type { AskedQuestion } from '@/db/repositories/question-desk';
import { candidateMap } from '@/lib/figures/candidate-map';
import { atlasCounties } from '@/lib/geography/atlas';
import type { County } from '@/lib/geography/types';
import { questionTexts as texts } from '../../messages/questions';

const SIZE = { width: 480, height: 300 };
/** Degrees around the candidates in which other counties are drawn. */
const AROUND = 3;

/** A small map of the counties that may be meant; nothing where the answers are no counties. */
export function CountyMap({ question }: { question: AskedQuestion }) {
  const candidates = question.reason.candidates.flatMap((name) => countiesByName().get(name) ?? []);
  if (candidates.length === 0) return null;
  const isNear = (county: County) =>
    candidates.some(
      ({ lon, lat }) => Math.abs(county.lon - lon) < AROUND && Math.abs(county.lat - lat) < AROUND,
    );
  const point = pointOf(question);
  const names = candidates.map(({ fullName, state }, at) => `${at + 1} ${fullName}, ${state}`).join('; ');
  const svg = candidateMap({
    ...{ candidates, point, ...SIZE },
    counties: atlasCounties().filter(isNear),
    label: `${texts.map}: ${names}`,
  });
  return (
    <figure className="staff-county-map">
      <figcaption>
        {texts.map}. {point ? texts.mapPoint : ''}
      </figcaption>
      {/* biome-ignore lint/security/noDangerouslySetInnerHtml: drawn by our own figure, which escapes every text */}
      <div dangerouslySetInnerHTML={{ __html: svg }} />
    </figure>
  );
}

let byName: Map<string, County> | undefined;

/** As the answers name them: “Lancaster County, NE”. */
function countiesByName(): Map<string, County> {
  byName ??= new Map(atlasCounties().map((county) => [`${county.fullName}, ${county.state}`, county]));
  return byName;
}

/** The point as the row states it in degrees; null where it does so in another way. */
function pointOf({ raw, columns }: AskedQuestion): [number, number] | null {
  const [lon, lat] = [raw[columns.lon ?? ''], raw[columns.lat ?? '']].map((text) =>
    text && /^\s*-?\d{1,3}(\.\d+)?\s*$/.test(text) ? Number(text) : Number.NaN,
  );
  return Number.isNaN(lon) || Number.isNaN(lat) ? null : [lon!, lat!];
}
