import { regionCamera } from '@/lib/figures/projection';
import { stateAnchors } from '@/lib/figures/region-outlines';
import type { Speech } from '../messages/texts';
import { areaOutlines } from '../view/map-frames';
import { drawnFront, mapPicture, outlinedPlace } from '../view/map-picture';
import type { Report } from '../view/read-report';
import { type View, viewHref, viewQuery } from '../view/view';
import { FindingSentence } from './finding-sentence';
import { GrainSwitch } from './grain-switch';
import { LayerSwitch } from './layer-switch';
import { Legend } from './legend';
import { MapStage } from './map-stage';
import { mapTexts } from './map-texts';
import { PictureLinks } from './picture-links';
import { PlaceCard } from './place-card';
import { PlaceSearch } from './place-search';

/** The map as a picture made here, its legend, and what is known of the chosen place. */
export function MapSection({ speech, report }: { speech: Speech; report: Report }) {
  const { texts } = speech;
  const { head, region, view, map, place, frames } = report;
  const { svg, size, title, about } = mapPicture(texts, report);
  const county = place.kind === 'county' ? region.counties.find(({ fips }) => fips === place.key) : undefined;
  return (
    <section className="map-section" aria-labelledby="map-heading">
      <LayerSwitch speech={speech} report={report} />
      <div className="section-head">
        <h2 id="map-heading">{title}</h2>
        <GrainSwitch speech={speech} report={report} />
      </div>
      <div className="map-columns">
        <div className="map-figure">
          <MapStage
            picture={svg}
            width={size.width}
            camera={regionCamera(region, size)}
            regionCamera={regionCamera(region, { ...size, focus: null })}
            anchors={stateAnchors(region, size)}
            stamp={head.simulated ? texts.simulated : null}
            source={texts.map.source(head.number, texts.day(head.date))}
            language={speech.language}
            texts={mapTexts(texts)}
            outlines={`/outlines/${head.number}.json`}
            areas={areaOutlines(head.number, map.areas)}
            counties={region.counties.map(
              ({ fips, district, state }) => `${fips} ${district ?? '-'} ${state}`,
            )}
            grain={map.grain}
            front={drawnFront(report, size)}
            frames={frames}
            view={view}
            chosen={outlinedPlace(report)}
            middle={county ? { lon: county.lon, lat: county.lat } : null}
          />
          <PictureLinks speech={speech} view={view} />
          <MapNotes speech={speech} report={report} about={about} />
        </div>
        <div className="map-aside">
          <PlaceSearch
            action={speech.at('/')}
            kept={keptIn(view)}
            leadsTo={viewHref(speech.language, { ...view, place: 'FIPS' })}
            stay
            names={`/outlines/${head.number}-names.json`}
            texts={texts.layers.search}
          />
          <PlaceCard speech={speech} report={report} />
          <Legend speech={speech} report={report} />
        </div>
      </div>
    </section>
  );
}

/** What stays of a view when another place is looked for. */
function keptIn(view: View): Record<string, string> {
  const { place: _, ...kept } = Object.fromEntries(viewQuery(view));
  return kept;
}

/** What the finding says that the map draws. */
function MapNotes({
  speech,
  report: { map, view, region },
  about,
}: {
  speech: Speech;
  report: Report;
  about: string;
}) {
  const { texts } = speech;
  const { finding } = map;
  return (
    <div className="map-notes">
      {/* The share is summed up under the headline already. Here nothing moves when a layer brings its words. */}
      {view.layer === 'share' ? null : <p className="map-about">{about}</p>}
      {view.layer === 'spread' && view.by !== 'district' ? <p>{texts.layers.districtOnly}</p> : null}
      {finding ? (
        <p>
          <FindingSentence speech={speech} finding={finding} region={region} />
        </p>
      ) : null}
    </div>
  );
}
