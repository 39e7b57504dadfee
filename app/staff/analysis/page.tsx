import type { StaffDatabase } from '@/db/clients/staff';
import { type Analysis, listAnalyses, readParts } from '@/db/repositories/analyses';
import { clusteringLines, speedLines } from '@/db/repositories/analysis-overview';
import { dominatedCounties } from '@/db/repositories/dominance';
import { listJobs } from '@/db/repositories/jobs';
import { standingPolicy } from '@/db/repositories/policies';
import { listSeasons } from '@/db/repositories/programme';
import { may } from '@/lib/access/rights';
import { ActionForm } from '../components/action-form';
import { staffPage } from '../guard/staff-page';
import { OpenJob } from '../jobs/open-job';
import { analysisTexts as texts } from '../messages/analysis';
import { instantWords } from '../messages/when';
import { startAnalysis } from './actions';
import { AnalysisNews } from './analysis-news';
import { Dominance } from './dominance';
import { FindingsByPair } from './findings-by-pair';

/** The last analysis: how to start another, what is new in it, and what it finds. */
export default staffPage('analysis.see', async ({ db, person }) => {
  const [analyses, [job]] = await Promise.all([
    listAnalyses(db),
    listJobs(db, { kinds: ['analysis'], limit: 1 }),
  ]);
  const [latest, before] = analyses;
  const isBusy = job !== undefined && job.finishedAt === null;
  return {
    title: texts.title,
    cautions: latest !== undefined,
    content: (
      <>
        <p>{texts.intro}</p>
        <section aria-labelledby="start">
          <h2 id="start">{texts.start}</h2>
          {isBusy ? <OpenJob job={job} person={person} /> : null}
          {job?.state === 'failed' ? <p className="staff-outcome">{texts.failed(job.message)}</p> : null}
          {job?.state === 'cancelled' && job.cancelledBy ? <p>{texts.cancelled(job.cancelledBy)}</p> : null}
          <p>
            {latest
              ? texts.last(latest.id, instantWords(latest.finishedAt!), latest.startedBy, latest.parts)
              : texts.none}
          </p>
          {!isBusy && may(person.roles, 'analysis.start') ? (
            <ActionForm action={startAnalysis} submit={texts.startButton} label={texts.start}>
              <p>{texts.startText}</p>
            </ActionForm>
          ) : null}
        </section>
        {latest ? await whatItFinds(db, latest, before) : null}
      </>
    ),
  };
});

async function whatItFinds(db: StaffDatabase, latest: Analysis, before: Analysis | undefined) {
  const isComparable = before?.version === latest.version;
  const lines = async ({ id }: Analysis) => ({
    maps: await clusteringLines(db, id),
    speeds: await speedLines(db, id),
  });
  const [now, earlier, multiple, seasons] = await Promise.all([
    lines(latest),
    before && isComparable ? lines(before) : null,
    readParts(db, latest.id, { kind: 'multiple' }),
    listSeasons(db),
  ]);
  const years = seasons.map(({ year }) => year);
  const { dominanceShare: share } = await standingPolicy(db);
  const dominated =
    years.length === 0 ? [] : await dominatedCounties(db, { from: years[0]!, to: years.at(-1)!, share });
  return (
    <>
      <AnalysisNews now={now} before={earlier} hasBefore={before !== undefined} />
      <FindingsByPair {...now} multiple={multiple} />
      <Dominance counties={dominated} share={share} />
    </>
  );
}
