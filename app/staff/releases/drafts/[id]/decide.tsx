import type { Person } from '@/db/repositories/people';
import type { StoredDraft } from '@/db/repositories/release-drafts';
import { may } from '@/lib/access/rights';
import { ActionForm } from '../../../components/action-form';
import { releaseTexts as texts } from '../../../messages/releases';
import { dropRelease, publishRelease } from '../../actions';

/** Publish the draft, or drop it. */
export function Decide({ draft, person, two }: { draft: StoredDraft; person: Person; two: boolean }) {
  const { id, number, date, personId } = draft;
  const isOwn = two && personId === person.id;
  const field = <input type="hidden" name="id" value={id} />;
  return (
    <section className="staff-panel" aria-labelledby="decide">
      <h2 id="decide">{texts.decide}</h2>
      {!may(person.roles, 'releases.publish') ? <p>{texts.mayNotPublish}</p> : null}
      {isOwn ? <p>{texts.ownDraft}</p> : null}
      {may(person.roles, 'releases.publish') && !isOwn ? (
        <ActionForm action={publishRelease} submit={texts.publishButton(number)}>
          {field}
          <p>{texts.publishText(number, date)}</p>
        </ActionForm>
      ) : null}
      {may(person.roles, 'releases.draft') ? (
        <ActionForm action={dropRelease} submit={texts.dropButton} grave>
          {field}
          <p>{texts.dropText}</p>
        </ActionForm>
      ) : null}
    </section>
  );
}
