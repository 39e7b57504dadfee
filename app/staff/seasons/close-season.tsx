import type { SeasonLine } from '@/db/repositories/season-overview';
import { closingConsequence } from '@/lib/jobs/close-season';
import { periodLabel } from '@/lib/vocabulary/terms';
import { ActionForm } from '../components/action-form';
import { releaseTexts } from '../messages/releases';
import { seasonTexts as texts } from '../messages/seasons';
import { closeOneSeason } from './actions';

/** What closing an open season would do, and a form to do it. */
export function CloseSeason(props: {
  season: SeasonLine;
  seasons: readonly SeasonLine[];
  firstSeason: number;
  windowLength: number;
  mayClose: boolean;
}) {
  const { season, seasons, firstSeason, windowLength, mayClose } = props;
  const { year, untold, questions, finds, populations, screened, operations } = season;
  const closed = seasons.filter(({ closedAt }) => closedAt !== null).map((one) => one.year);
  const { completes, waits } = closingConsequence(year, { closed, firstSeason, windowLength });
  const earlier = seasons.filter((one) => one.closedAt === null && one.year < year).map((one) => one.year);
  const unsettled = [
    ...(earlier.length > 0 ? [texts.earlier(earlier.reverse())] : []),
    ...(populations > screened ? [texts.notScreened(populations - screened)] : []),
    ...(untold > 0 ? [texts.untold(untold)] : []),
    ...(questions > 0 ? [texts.questions(questions)] : []),
    ...(finds > 0 ? [texts.finds(finds)] : []),
  ];
  const heading = `close-${year}`;
  return (
    <section className="staff-panel" aria-labelledby={heading}>
      <h2 id={heading}>{texts.closeHeading(year)}</h2>
      <p>{texts.enters(season.public, operations)}</p>
      {completes.length > 0 ? <p>{texts.completes(completes.map(periodLabel))}</p> : null}
      {waits ? <p>{texts.waits(periodLabel(waits.window), waits.open)}</p> : null}
      {completes.length === 0 && !waits ? <p>{texts.standsAlready}</p> : null}
      {unsettled.length === 0 ? (
        <p>{texts.settled}</p>
      ) : (
        <ul className="staff-warnings">
          {unsettled.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      <p>
        <a href="/staff/questions">{texts.toQuestions}</a> ·{' '}
        <a href={`/staff/result-sheets?season=${year}`}>{releaseTexts.toSheets}</a> ·{' '}
        <a href="/staff/finds">{releaseTexts.toFinds}</a>
      </p>
      {mayClose ? (
        <ActionForm action={closeOneSeason} submit={texts.closeButton(year)} grave>
          <input type="hidden" name="year" value={year} />
        </ActionForm>
      ) : (
        <p>{texts.mayNot}</p>
      )}
    </section>
  );
}
