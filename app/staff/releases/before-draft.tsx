import type { SeasonState } from '@/db/repositories/programme';
import { releaseTexts as texts } from '../messages/releases';

/** What a draft would be made of, with the pages where that is settled. */
export function BeforeDraft({
  seasons,
  finds,
  untold,
}: {
  seasons: readonly SeasonState[];
  finds: number;
  untold: readonly { season: number; populations: number }[];
}) {
  const years = (isClosed: boolean) =>
    seasons.filter(({ closedAt }) => (closedAt !== null) === isClosed).map(({ year }) => year);
  const open = years(false);
  return (
    <ul className="staff-facts" aria-label={texts.before}>
      <li>
        {texts.closed(years(true))} {open.length > 0 ? texts.openSeasons(open) : ''}{' '}
        <a href="/staff/seasons">{texts.toSeasons}</a>
      </li>
      <li>
        {texts.held(finds)} <a href="/staff/finds">{texts.toFinds}</a>
      </li>
      <li>
        {texts.untold(untold)} <a href="/staff/result-sheets">{texts.toSheets}</a>
      </li>
    </ul>
  );
}
