import { en } from '../messages/en';
import { herbicideName, weedName } from './names';
import type { Report } from './read-report';

/** Title of the window: what is shown, where, and that it is simulated where it is. */
export function reportTitle({ head, view }: Report): string {
  const what = `${weedName(view.species)} × ${herbicideName(view.group).short}`;
  return [what, head.region, ...(head.simulated ? [en.simulated] : []), en.name].join(' · ');
}
