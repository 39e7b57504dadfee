import type { Encoding } from '@/db/repositories/published';

/**
 * Which of the codings at hand a client reads best, by its Accept-Encoding (RFC 9110, 12.5.3): the greatest weight, the
 * earlier one at equal weights, null for the plain bytes. These are the last resort of a client that names others, and
 * are sent too where it refuses everything, since a body that it may be able to read is better than none.
 *
 * @param available in the order in which the server prefers them
 */
export function chooseEncoding<E extends Encoding>(
  acceptEncoding: string | null | undefined,
  available: readonly E[],
): E | null {
  const weights = weightsOf(acceptEncoding ?? '');
  const weightOf = (coding: string) => weights.get(coding) ?? weights.get('*') ?? 0;
  let best: E | null = null;
  let most = weightOf('identity');
  for (const coding of available) {
    const weight = weightOf(coding);
    if (weight > most || (weight === most && best === null && weight > 0)) [best, most] = [coding, weight];
  }
  return best;
}

function weightsOf(acceptEncoding: string): Map<string, number> {
  return new Map(
    acceptEncoding.split(',').map((part) => {
      const [coding, ...parameters] = part
        .toLowerCase()
        .split(';')
        .map((text) => text.trim());
      const weight = parameters.find((text) => text.startsWith('q='))?.slice(2) ?? '1';
      // What is no weight by the grammar is a coding that the client was not able to ask for.
      return [coding!, /^(0(\.\d{0,3})?|1(\.0{0,3})?)$/.test(weight) ? Number(weight) : 0];
    }),
  );
}
