import { mapFigure } from '@/lib/figures/map-figure';
import { fittedHeight, regionCamera } from '@/lib/figures/projection';
import { stateAnchors } from '@/lib/figures/region-outlines';
import { sentence } from '../messages/format';
import type { Speech } from '../messages/texts';
import type { Report } from '../view/read-report';
import { GrainSwitch } from './grain-switch';
import { Legend } from './legend';
import { MapStage } from './map-stage';
import { mapTexts } from './map-texts';
import { PlaceCard } from './place-card';

const WIDTH = 960;

/** The map as a picture made here, its legend, and what is known of the chosen place. */
export function MapSection({ speech, report }: { speech: Speech; report: Report }) {
  const { texts } = speech;
  const { head, region, view, places, chosen, areas } = report;
  const size = { width: WIDTH, height: fittedHeight(region, WIDTH) };
  const stamp = head.simulated ? texts.simulated : null;
  const title = texts.say.mapTitle(
    texts.weedName(view.species),
    texts.herbicideName(view.group).short,
    view.by,
    view.window,
  );
  const outlined = chosen.at(-1)!.place.key;
  const picture = mapFigure({
    region,
    grain: view.by,
    size,
    places: places.map((numbers) => ({
      place: numbers.place.key,
      name: numbers.place.fullName,
      status: numbers.status,
      share: numbers.estimate?.share ?? null,
      words: texts.say.placeWords(numbers),
    })),
    title,
    description: texts.say.placeSummary(places, view.by),
    hiddenWords: sentence(texts.status['no public information']),
    stamp,
    chosen: outlined === 'region' ? null : outlined,
    prefix: 'map-',
  });
  return (
    <section className="map-section" aria-labelledby="map-heading">
      <div className="section-head">
        <h2 id="map-heading">{title}</h2>
        {region.districts.length > 0 ? <GrainSwitch speech={speech} view={view} /> : null}
      </div>
      <div className="map-columns">
        <div className="map-figure">
          <MapStage
            picture={picture}
            width={size.width}
            camera={regionCamera(region, size)}
            anchors={stateAnchors(region, size)}
            stamp={stamp}
            source={texts.map.source(head.number, texts.day(head.date))}
            language={speech.language}
            texts={mapTexts(texts.map)}
            outlines={`/outlines/${head.number}.json`}
            areas={
              areas && view.by === 'county'
                ? `/outlines/${head.number}-${areas.species}-${areas.first}.json`
                : null
            }
            view={view}
            chosen={outlined}
          />
        </div>
        <div className="map-aside">
          <PlaceCard speech={speech} report={report} />
          <Legend
            speech={speech}
            withShares={view.window !== 'all'}
            withAreas={areas !== null && view.by === 'county'}
          />
        </div>
      </div>
    </section>
  );
}
