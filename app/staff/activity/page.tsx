import { activityChoices, listActivity } from '@/db/repositories/activity';
import { staffPage } from '../guard/staff-page';
import { activityTexts as texts } from '../messages/activity';
import { ActivityForm } from './activity-form';
import { ActivityTable } from './activity-table';
import { filterQuery, readFilter } from './filter';

const PAGE = 100;

/** Who did what, when, to what. */
export default staffPage('activity.see', async ({ db, search }) => {
  const filter = readFilter(search);
  const [lines, choices] = await Promise.all([
    listActivity(db, { ...filter, limit: PAGE }),
    activityChoices(db),
  ]);
  const last = lines.at(-1);
  const { before: _, ...whole } = filter;
  return {
    title: texts.title,
    content: (
      <>
        <p>{texts.intro}</p>
        <ActivityForm filter={filter} choices={choices} />
        <p>
          <a href={`/staff/activity/file?${filterQuery(whole)}`}>{texts.export}</a>
        </p>
        <ActivityTable lines={lines} />
        {lines.length === PAGE && last ? (
          <p>
            <a href={`/staff/activity?${filterQuery({ ...filter, before: last.id })}`}>{texts.older}</a>
          </p>
        ) : null}
      </>
    ),
  };
});
