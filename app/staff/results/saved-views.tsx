import type { SavedView } from '@/db/repositories/saved-views';
import { ActionForm } from '../components/action-form';
import { Field } from '../components/field';
import { resultTexts as texts } from '../messages/results';
import { forgetView, keepView } from './actions';

/** The views that a person keeps, and a way to keep the one that is shown. */
export function SavedViews({ views, query }: { views: readonly SavedView[]; query: string }) {
  return (
    <details className="staff-views">
      <summary>{`${texts.viewsHeading} (${views.length})`}</summary>
      {views.length === 0 ? <p className="quiet">{texts.noViews}</p> : null}
      <ul>
        {views.map(({ id, name, query: kept }) => (
          <li key={id}>
            <a href={`/staff/results?${kept}`}>{name}</a>
            <ActionForm
              action={forgetView}
              submit={texts.removeView}
              label={`${texts.removeView}: ${name}`}
              className="staff-inline"
            >
              <input type="hidden" name="id" value={id} />
            </ActionForm>
          </li>
        ))}
      </ul>
      <ActionForm action={keepView} submit={texts.saveView}>
        <input type="hidden" name="query" value={query} />
        <Field name="name" label={texts.viewName} required />
      </ActionForm>
    </details>
  );
}
