import { mapTexts as texts } from '../messages/map';
import { pairKey } from '../messages/pairs';
import type { PrivateMap } from './read-private-map';

/** What the last analysis says of the weed and group, and of the chosen place. */
export function PlaceFindings({ map: { view, spread } }: { map: PrivateMap }) {
  if (!spread) return null;
  const own = spread.firstDetections.filter(({ place }) => place === view.place);
  return (
    <section aria-labelledby="map-findings">
      <h2 id="map-findings">{texts.findings}</h2>
      {own.map(({ sentence }) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <p>{spread.nearness.sentence}</p>
      <p>{spread.speed.sentence}</p>
      <p>{spread.trend.sentence}</p>
      <p>
        <a href={`/staff/analysis/${pairKey(view.pair)}`}>{texts.allFindings}</a>
      </p>
    </section>
  );
}
