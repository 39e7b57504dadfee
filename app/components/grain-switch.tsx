import type { Speech } from '../messages/texts';
import { grainsOf, viewWith } from '../view/choices';
import type { Report } from '../view/read-report';
import { viewHref } from '../view/view';
import { ViewLink } from './wait-room';

/** County, district or state: addresses of the same view. */
export function GrainSwitch({
  speech: { language, texts },
  report: { head, region, view },
}: {
  speech: Speech;
  report: Report;
}) {
  return (
    <nav className="grain-switch" aria-label={texts.grain.label}>
      <span aria-hidden="true">{texts.grain.label}</span>
      {grainsOf(region).map((by) => (
        <ViewLink key={by} href={viewHref(language, viewWith(head, view, { by }))} isCurrent={view.by === by}>
          {texts.layers.grains[by]}
        </ViewLink>
      ))}
    </nav>
  );
}
