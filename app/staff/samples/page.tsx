import {
  SAMPLE_DAYS,
  type SampleSeason,
  type SampleWays,
  sampleSeasons,
  sampleWays,
  type WaitingSample,
  waitingSamples,
} from '@/db/repositories/sample-log';
import { countyName } from '@/lib/geography/atlas';
import { commonNameOf } from '@/lib/vocabulary/species';
import { DataTable } from '../components/data-table';
import { ChoiceField } from '../components/field';
import { staffPage } from '../guard/staff-page';
import { sampleTexts as texts } from '../messages/samples';
import '@/app/styles/staff/results.css';

const PAGE = 50;

/** The log of samples: how far they are, what waits, how long it took. */
export default staffPage('samples.see', async ({ db, search }) => {
  const seasons = await sampleSeasons(db);
  const years = [...new Set(seasons.map(({ season }) => season))];
  const season = years.find((year) => String(year) === search.season) ?? years[0];
  if (season === undefined) return { title: texts.title, content: <p>{texts.none}</p> };
  const laboratories = [...new Set(seasons.map(({ laboratory }) => laboratory))];
  const laboratory = laboratories.find((name) => name === search.laboratory);
  const after = typeof search.after === 'string' && /^\d{1,9}$/.test(search.after) ? Number(search.after) : 0;
  const [ways, waiting] = await Promise.all([
    sampleWays(db, season),
    waitingSamples(db, { season, laboratory, after, limit: PAGE }),
  ]);
  return {
    title: texts.title,
    content: (
      <>
        <p>{texts.intro}</p>
        <DataTable caption={texts.seasons} columns={texts.seasonsColumns} rows={seasons.map(seasonRow)} />
        <form action="/staff/samples" method="get" className="staff-filter" aria-label={texts.choose}>
          <ChoiceField
            name="season"
            label={texts.season}
            value={String(season)}
            options={years.map((year) => [String(year), String(year)] as const)}
          />
          <ChoiceField
            name="laboratory"
            label={texts.laboratory}
            value={laboratory}
            options={[['', texts.any], ...laboratories.map((name) => [name, name] as const)]}
          />
          <button type="submit">{texts.show}</button>
        </form>
        <h2 className="staff-apart">{texts.wayOf(season)}</h2>
        <Ways ways={ways} laboratory={laboratory} />
        <Waiting
          waiting={waiting}
          query={{ season: String(season), ...(laboratory ? { laboratory } : {}) }}
        />
      </>
    ),
  };
});

function seasonRow({ season, laboratory, populations, reported, medianDays, timed }: SampleSeason) {
  const number = (value: number) => value.toLocaleString('en');
  return {
    key: `${season} ${laboratory}`,
    cells: [
      <a key="season" href={`/staff/samples?${new URLSearchParams({ season: String(season), laboratory })}`}>
        {season}
      </a>,
      laboratory,
      number(populations),
      number(reported),
      number(populations - reported),
      `${texts.medianDays(medianDays)}${timed > 0 ? ` (${number(timed)})` : ''}`,
    ],
  };
}

function Ways({ ways, laboratory }: { ways: SampleWays; laboratory: string | undefined }) {
  const isWanted = (one: { laboratory: string }) => laboratory === undefined || one.laboratory === laboratory;
  const steps = ways.steps.filter(isWanted);
  return (
    <>
      <DataTable
        caption={texts.days}
        columns={[texts.laboratory, texts.samples, ...SAMPLE_DAYS.map((name) => texts.dayNames[name])]}
        rows={ways.days.filter(isWanted).map((row) => ({
          key: row.laboratory,
          cells: [
            row.laboratory,
            row.populations.toLocaleString('en'),
            ...SAMPLE_DAYS.map((name) =>
              row[name] === 0 ? texts.notStated : row[name].toLocaleString('en'),
            ),
          ],
        }))}
      />
      {steps.length === 0 ? (
        <p>{texts.noStep}</p>
      ) : (
        <DataTable
          caption={texts.steps}
          columns={texts.stepsColumns}
          rows={steps.map(({ laboratory: name, from, to, timed, medianDays }) => ({
            key: `${name} ${from} ${to}`,
            cells: [
              texts.step(texts.dayNames[from], texts.dayNames[to]),
              name,
              timed.toLocaleString('en'),
              texts.medianDays(medianDays),
            ],
          }))}
        />
      )}
      <p className="quiet">{texts.stepsNote}</p>
    </>
  );
}

function Waiting({ waiting, query }: { waiting: readonly WaitingSample[]; query: Record<string, string> }) {
  const last = waiting.at(-1);
  if (!last) return <p>{texts.waitingNone}</p>;
  return (
    <>
      <DataTable caption={texts.waiting} columns={texts.waitingColumns} rows={waiting.map(waitingRow)} />
      {waiting.length === PAGE ? (
        <p>
          <a href={`/staff/samples?${new URLSearchParams({ ...query, after: String(last.id) })}`}>
            {texts.more}
          </a>
        </p>
      ) : null}
    </>
  );
}

function waitingRow(sample: WaitingSample) {
  const { id, species, county, tests, received, sown, sprayed, scored } = sample;
  const results = new URLSearchParams({ sample: sample.sample, laboratory: sample.laboratory });
  return {
    key: id,
    cells: [
      <a key="sample" href={`/staff/results?${results}`}>
        {sample.sample}
      </a>,
      sample.laboratory,
      commonNameOf(species),
      countyName(county) ?? county,
      ...[received, sown, sprayed, scored].map((day) => day ?? texts.notStated),
      tests,
      stageOf(sample),
    ],
  };
}

/** The last step that a sheet states; a sample with tests has been scored, whether a day is stated or not. */
function stageOf({ tests, received, sown, sprayed, scored }: WaitingSample): string {
  if (scored) return texts.stage.scored;
  if (tests > 0) return texts.result;
  if (sprayed) return texts.stage.sprayed;
  if (sown) return texts.stage.sown;
  return received ? texts.stage.received : texts.notTested;
}
