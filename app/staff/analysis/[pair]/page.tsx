import { listAnalyses, readParts } from '@/db/repositories/analyses';
import { analysedPairs } from '@/db/repositories/analysis-overview';
import { latestJob } from '@/db/repositories/jobs';
import type { MapAnalysis } from '@/lib/findings/analysis/types';
import { mapLines, simpleLines, testLines } from '@/lib/jobs/analysis-words';
import { DESIGNS } from '@/lib/vocabulary/terms';
import { Sorry } from '../../components/sorry';
import { staffPage } from '../../guard/staff-page';
import { analysisTexts as texts } from '../../messages/analysis';
import { pairInFull, pairKey } from '../../messages/pairs';
import { staffRegion } from '../../region';
import { LookNextSection } from './look-next-section';
import { PlaceByPlace } from './place-by-place';
import { StatedSpeedSection } from './stated-speed';

/** Everything that the last analysis says of one weed and group. */
export default staffPage('analysis.see', async ({ db, person, params, programme }) => {
  const [latest] = await listAnalyses(db);
  const pairs = latest ? await analysedPairs(db, latest.id) : [];
  const pair = pairs.find((one) => pairKey(one) === params.pair);
  if (!latest || !pair || !programme)
    return { title: texts.title, content: <Sorry text={texts.unknownPair} /> };
  const [maps, spreads, stated] = await Promise.all([
    readParts(db, latest.id, { kind: 'map', ...pair }),
    readParts(db, latest.id, { kind: 'spread', ...pair }),
    latestJob(db, 'stated-speed', { species: pair.species, group: pair.group }),
  ]);
  const region = staffRegion(programme);
  const all = spreads.find(({ design }) => design === null);
  return {
    title: texts.pairTitle(pairInFull(pair)),
    cautions: true,
    content: (
      <>
        <p>
          <a href={`/staff/map?pair=${pairKey(pair)}`}>{texts.onMap}</a>
        </p>
        <section aria-labelledby="spread">
          <h2 id="spread">{texts.spreadHeading}</h2>
          {spreads.map((spread) => (
            <details key={spread.design ?? 'all'} open={spread.design === null} className="staff-finding">
              <summary>{spread.design === null ? texts.allDesigns : texts.designOnly(spread.design)}</summary>
              <p>{spread.nearness.sentence}</p>
              <p>{spread.speed.sentence}</p>
              {simpleLines(spread.simpleSpeeds).map((line) => (
                <p key={line} className="quiet">
                  {line}
                </p>
              ))}
              <p>{spread.togetherness.sentence}</p>
              <p>{spread.trend.sentence}</p>
              {spread.change ? <p>{spread.change.sentence}</p> : null}
            </details>
          ))}
          <StatedSpeedSection pair={pair} region={region} job={stated} person={person} />
        </section>
        <LookNextSection found={all?.lookNext ?? null} region={region} simulated={programme.simulated} />
        <section aria-labelledby="maps">
          <h2 id="maps">{texts.mapsHeading}</h2>
          {[null, ...DESIGNS].map((design) => {
            const own = maps.filter((map) => map.design === design);
            if (own.length === 0) return null;
            return (
              <details key={design ?? 'all'} open={design === null}>
                <summary>{design === null ? texts.allDesigns : texts.designOnly(design)}</summary>
                {own.map((map) => (
                  <OneMap key={`${map.period.first} ${map.period.last}`} map={map} />
                ))}
              </details>
            );
          })}
        </section>
        {all ? <PlaceByPlace spread={all} /> : null}
      </>
    ),
  };
});

/** The verdict on one map, what its cluster is made of, and the tests behind it. */
function OneMap({ map }: { map: MapAnalysis }) {
  const { madeOf } = map.clustering;
  return (
    <div className="staff-finding">
      <p>{mapLines(map, false)[0]}</p>
      {madeOf ? <p>{texts.madeOf(madeOf.resistant, madeOf.operations, madeOf.largestOperation)}</p> : null}
      {map.tests ? (
        <details>
          <summary>{texts.tests}</summary>
          <ul className="staff-list">
            {testLines(map.tests).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </details>
      ) : null}
    </div>
  );
}
