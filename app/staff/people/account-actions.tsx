import type { Person } from '@/db/repositories/people';
import { ActionForm } from '../components/action-form';
import { peopleTexts as texts } from '../messages/people';
import { closePerson, dropSecondFactor, inviteAgain, reopenPerson } from './actions';

/** What can be done with an account as a whole, each with its consequence. */
export function AccountActions({ person }: { person: Person }) {
  const id = <input type="hidden" name="id" value={person.id} />;
  if (person.closedAt) {
    return (
      <ActionForm action={reopenPerson} submit={texts.reopen}>
        {id}
      </ActionForm>
    );
  }
  return (
    <>
      {person.ready ? null : (
        <ActionForm action={inviteAgain} submit={texts.again}>
          {id}
          <p>{texts.againText}</p>
        </ActionForm>
      )}
      {person.twoFactor ? (
        <ActionForm action={dropSecondFactor} submit={texts.factor} grave>
          {id}
          <p>{texts.factorText}</p>
        </ActionForm>
      ) : null}
      <ActionForm action={closePerson} submit={texts.close} grave>
        {id}
        <p>{texts.closeText}</p>
      </ActionForm>
    </>
  );
}
