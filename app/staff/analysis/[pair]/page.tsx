import { listAnalyses, readParts } from '@/db/repositories/analyses';
import { analysedPairs } from '@/db/repositories/analysis-overview';
import { mapLines, simpleLines, testLines } from '@/lib/jobs/analysis-words';
import { Sorry } from '../../components/sorry';
import { staffPage } from '../../guard/staff-page';
import { analysisTexts as texts } from '../../messages/analysis';
import { pairInFull, pairKey } from '../../messages/pairs';
import { staffRegion } from '../../region';
import { LookNextSection } from './look-next-section';
import { PlaceByPlace } from './place-by-place';

/** Everything that the last analysis says of one weed and group. */
export default staffPage('analysis.see', async ({ db, params, programme }) => {
  const [latest] = await listAnalyses(db);
  const pairs = latest ? await analysedPairs(db, latest.id) : [];
  const pair = pairs.find((one) => pairKey(one) === params.pair);
  if (!latest || !pair || !programme)
    return { title: texts.title, content: <Sorry text={texts.unknownPair} /> };
  const [maps, spreads] = await Promise.all([
    readParts(db, latest.id, { kind: 'map', ...pair }),
    readParts(db, latest.id, { kind: 'spread', ...pair }),
  ]);
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
            <div key={spread.design ?? 'all'}>
              <h3>{spread.design === null ? texts.allDesigns : texts.designOnly(spread.design)}</h3>
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
            </div>
          ))}
        </section>
        <LookNextSection
          found={all?.lookNext ?? null}
          region={staffRegion(programme)}
          simulated={programme.simulated}
        />
        <section aria-labelledby="maps">
          <h2 id="maps">{texts.mapsHeading}</h2>
          {maps.map((map) => (
            <div key={`${map.period.first} ${map.period.last} ${map.design}`} className="staff-finding">
              <p>{mapLines(map, false)[0]}</p>
              {map.clustering.madeOf ? (
                <p>
                  {texts.madeOf(
                    map.clustering.madeOf.resistant,
                    map.clustering.madeOf.operations,
                    map.clustering.madeOf.largestOperation,
                  )}
                </p>
              ) : null}
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
          ))}
        </section>
        {all ? <PlaceByPlace spread={all} /> : null}
      </>
    ),
  };
});
