import type { Speech } from '../messages/texts';
import { viewWith } from '../view/choices';
import type { Report } from '../view/read-report';
import { LAYERS, viewHref } from '../view/view';
import { ViewLink } from './wait-room';

/** What the map shows: an address for each layer. */
export function LayerSwitch({
  speech: { texts, language },
  report: { head, region, view },
}: {
  speech: Speech;
  report: Report;
}) {
  const layers = LAYERS.filter((layer) => layer !== 'spread' || region.districts.length > 0);
  return (
    <nav className="layer-switch" aria-label={texts.layers.label}>
      <ul>
        {layers.map((layer) => (
          <li key={layer}>
            <ViewLink
              href={viewHref(language, viewWith(head, view, { layer }))}
              isCurrent={view.layer === layer}
            >
              {texts.layers.names[layer]}
            </ViewLink>
          </li>
        ))}
      </ul>
    </nav>
  );
}
