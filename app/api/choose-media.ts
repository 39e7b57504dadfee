import { Problem } from './problem';

export type Media = 'application/json' | 'text/csv';

/**
 * Which of the media types at hand a client reads best, by its Accept (RFC 9110, 12.5.1): the greatest weight, of equal
 * ones the first.
 *
 * @throws Problem 406 where it reads none of them
 */
export function chooseMedia(accept: string | null, available: readonly Media[]): Media {
  if (accept === null || accept.trim() === '') return available[0]!;
  const ranges = accept.split(',').map(readRange);
  const weightOf = (media: Media) => {
    const [kind] = media.split('/');
    const fitting = ranges.filter(({ range }) => range === media || range === `${kind}/*` || range === '*/*');
    // The most precise range decides.
    fitting.sort((a, b) => precision(b.range) - precision(a.range));
    return fitting[0]?.weight ?? 0;
  };
  const best = available.reduce((most, media) => (weightOf(media) > weightOf(most) ? media : most));
  if (weightOf(best) > 0) return best;
  throw new Problem(406, 'Not acceptable', `Ask for one of: ${available.join(', ')}.`);
}

function readRange(text: string): { range: string; weight: number } {
  const [range = '', ...parameters] = text.split(';').map((part) => part.trim().toLowerCase());
  const q = parameters.find((part) => part.startsWith('q='));
  const weight = q === undefined ? 1 : Number(q.slice(2));
  return { range, weight: weight >= 0 && weight <= 1 ? weight : 0 };
}

function precision(range: string): number {
  return range === '*/*' ? 0 : range.endsWith('/*') ? 1 : 2;
}
