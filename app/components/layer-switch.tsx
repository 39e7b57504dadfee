import Link from 'next/link';
import type { Speech } from '../messages/texts';
import { viewWith } from '../view/choices';
import type { Report } from '../view/read-report';
import { LAYERS, viewHref } from '../view/view';
import { LinkWait } from './wait-room';

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
            <Link
              href={viewHref(language, viewWith(head, view, { layer }))}
              scroll={false}
              prefetch={false}
              aria-current={view.layer === layer ? 'true' : undefined}
            >
              {texts.layers.names[layer]}
              <LinkWait />
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  );
}
