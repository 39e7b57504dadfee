import type { Texts } from '../messages/texts';
import type { Report } from './read-report';

/** Title of the window: what is shown, where, and that it is simulated where it is. */
export function reportTitle(texts: Texts, { head, view }: Report): string {
  const what = `${texts.weedName(view.species)} × ${texts.herbicideName(view.group).short}`;
  return [what, head.region, ...(head.simulated ? [texts.simulated] : []), texts.name].join(' · ');
}
