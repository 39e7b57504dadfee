import { today } from '@/lib/jobs/today';
import { ActionForm } from '../components/action-form';
import { Field } from '../components/field';
import { sheetTexts as texts } from '../messages/result-sheets';
import { markSeason } from './actions';
import { MOST_SHEETS } from './most-sheets';

/** Everything of a season that waits: its sheets in one document, and one act that notes them all. */
export function SeasonMark(props: {
  season: number;
  laboratory: string | null;
  untold: number;
  mayMark: boolean;
}) {
  const { season, laboratory, untold, mayMark } = props;
  const query = new URLSearchParams({ season: String(season), ...(laboratory ? { laboratory } : {}) });
  return (
    <section className="staff-panel" aria-labelledby="whole-season">
      <h2 id="whole-season">{texts.allHeading(season)}</h2>
      <p>{texts.allText(untold)}</p>
      <p>
        <a href={`/staff/result-sheets/document?${query}`}>
          {texts.allDocument(Math.min(untold, MOST_SHEETS))}
        </a>{' '}
        {untold > MOST_SHEETS ? texts.most(MOST_SHEETS) : null}
      </p>
      {mayMark ? (
        <ActionForm action={markSeason} submit={texts.allMark(untold)} label={texts.allHeading(season)} grave>
          <input type="hidden" name="season" value={season} />
          <input type="hidden" name="laboratory" value={laboratory ?? ''} />
          <Field name="on" type="date" label={texts.on} value={today()} required />
        </ActionForm>
      ) : null}
    </section>
  );
}
