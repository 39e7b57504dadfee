import type { Texts } from '../messages/texts';

/** Words of the map that the browser needs. */
export type MapTexts = Pick<
  Texts['map'],
  | 'hint'
  | 'label'
  | 'controls'
  | 'zoomIn'
  | 'zoomOut'
  | 'whole'
  | 'west'
  | 'north'
  | 'south'
  | 'east'
  | 'open'
  | 'gestures'
>;

/** Those of a language; functions stay behind, for they cannot be sent to a browser. */
export function mapTexts({ source: _, ...texts }: Texts['map']): MapTexts {
  return texts;
}
