import type { Texts } from '../messages/texts';

/** Words of the map that the browser needs. */
export type MapTexts = Omit<Texts['map'], 'source'> & Pick<Texts['layers'], 'slider'>;

/** Those of a language; functions stay behind, for they cannot be sent to a browser. */
export function mapTexts({ map: { source: _, ...map }, layers: { slider } }: Texts): MapTexts {
  return { ...map, slider };
}
