import { listSeasons } from '@/db/repositories/programme';
import { unreported } from '@/db/repositories/reported';
import { laboratoriesOf, samplesToReport } from '@/db/repositories/result-sheets';
import { may } from '@/lib/access/rights';
import { staffPage } from '../guard/staff-page';
import { sheetTexts as texts } from '../messages/result-sheets';
import { SampleForm } from './sample-form';
import { SampleList } from './sample-list';
import { SeasonMark } from './season-mark';

const PAGE = 100;

type Word = string | string[] | undefined;
const text = (word: Word) => (typeof word === 'string' && word !== '' ? word.slice(0, 200) : null);

/** Samples whose senders are to hear their results, their sheets, and what was handed over. */
export default staffPage('samples.see', async ({ db, person, search }) => {
  const [seasons, waiting] = await Promise.all([listSeasons(db), unreported(db)]);
  const years = seasons.map(({ year }) => year).reverse();
  const season = years.find((year) => String(year) === search.season) ?? waiting.at(-1)?.season ?? years[0];
  if (season === undefined) return { title: texts.title, content: <p>{texts.none}</p> };
  const filter = {
    season,
    laboratory: text(search.laboratory),
    untold: search.which !== 'all',
    sample: text(search.sample),
  };
  const [lines, laboratories] = await Promise.all([
    samplesToReport(db, { ...filter, after: afterOf(search), limit: PAGE }),
    laboratoriesOf(db, season),
  ]);
  const untold = waiting.find((one) => one.season === season)?.populations ?? 0;
  const noted = Number(search.noted) || 0;
  const mayMark = may(person.roles, 'samples.report');
  return {
    title: texts.title,
    cautions: true,
    content: (
      <>
        <p>{texts.intro}</p>
        {noted > 0 ? <p className="staff-good">{texts.marked(noted)}</p> : null}
        <SampleForm filter={filter} years={years} laboratories={laboratories} />
        <p>{texts.found(lines.length, untold, season)}</p>
        {lines.length === 0 ? (
          <p>{texts.nothing}</p>
        ) : (
          <SampleList lines={lines} filter={filter} mayMark={mayMark} isFull={lines.length === PAGE} />
        )}
        {untold > 0 ? (
          <SeasonMark season={season} laboratory={filter.laboratory} untold={untold} mayMark={mayMark} />
        ) : null}
      </>
    ),
  };
});

function afterOf(search: Record<string, Word>): { sample: string; id: number } | null {
  const [sample, id] = [text(search.after), Number(search.afterId)];
  return sample !== null && Number.isSafeInteger(id) ? { sample, id } : null;
}
