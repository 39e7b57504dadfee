import { SHARE_CLASSES, shareTone } from '@/lib/figures/looks';
import { mapFigure } from '@/lib/figures/map-figure';
import { fittedHeight } from '@/lib/figures/projection';
import { fillSwatch } from '@/lib/figures/swatch';
import { countiesOf } from '@/lib/geography/areas';
import type { Region } from '@/lib/geography/types';
import { periodLabel } from '@/lib/vocabulary/terms';
import { Drawing } from '../components/drawing';
import { stampOf } from '../components/stamp';
import { mapTexts as texts } from '../messages/map';
import { pairWords } from '../messages/pairs';
import { ClickableMap } from './clickable-map';
import { countWords } from './layer-fills';
import { keptApart, type MapView, mapHref } from './map-view';
import { placeName } from './place-facts';
import type { PublicMap } from './read-public-map';

const WIDTH = 900;

/** The same map from the latest release: what is withheld is withheld here too. */
export function PublicMapPage(props: {
  view: MapView;
  region: Region;
  released: PublicMap | null;
  simulated: boolean;
}) {
  const { view, region, released, simulated } = props;
  if (!released) return <p>{texts.noRelease}</p>;
  const { number, head, places } = released;
  if (!places) return <p>{texts.notPublic(head.windows.map(periodLabel).join(', '))}</p>;
  const title = texts.headline(
    pairWords(view.pair),
    periodLabel(view.period),
    keptApart({ ...view, crop: null, funder: null }),
  );
  const picture = mapFigure({
    ...{ region, grain: view.by, title, prefix: 'public-' },
    description: texts.publicNow(number),
    size: { width: WIDTH, height: fittedHeight(region, WIDTH) },
    stamp: stampOf(simulated),
    chosen: null,
    hiddenWords: texts.legend.hidden,
    places: places.map(({ key, counts }) => ({
      place: key,
      name: countiesOf(key)
        .map((one) => placeName(region, one))
        .join(' + '),
      status:
        counts === null ? 'no public information' : counts.resistant > 0 ? 'confirmed' : 'none confirmed',
      share: counts && counts.resistant > 0 ? counts.resistant / counts.tested : null,
      words: counts ? countWords(counts.tested, counts.resistant) : '',
    })),
  });
  const swatches = [
    ...SHARE_CLASSES.map((_, at) => [shareTone(at + 1), texts.legend.share[at]!] as const),
    ['clean', texts.legend.clean] as const,
    ['hidden', texts.legend.hidden] as const,
    ['blank', texts.legend.blank] as const,
  ];
  return (
    <>
      <h2>{title}</h2>
      <p>{texts.publicNow(number)}</p>
      <ClickableMap markup={picture} href={mapHref(view)} />
      <ul className="staff-legend">
        {swatches.map(([tone, words]) => (
          <li key={tone}>
            <Drawing
              markup={fillSwatch({ tone, faint: false }, `public-${tone}-`)}
              className="staff-swatch"
            />
            {words}
          </li>
        ))}
      </ul>
    </>
  );
}
