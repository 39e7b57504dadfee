import { factorDuties, listPeople, type Person } from '@/db/repositories/people';
import { ROLES } from '@/lib/vocabulary/roles';
import { ActionForm } from '../components/action-form';
import { DataTable } from '../components/data-table';
import { Field, TickField } from '../components/field';
import { staffPage } from '../guard/staff-page';
import { staff } from '../messages/en';
import { peopleTexts as texts } from '../messages/people';
import { askFactors, invitePerson } from './actions';

/** All accounts, a form to invite somebody, and which roles must have a second factor. */
export default staffPage('people.manage', async ({ db }) => {
  const [people, duties] = await Promise.all([listPeople(db), factorDuties(db)]);
  return {
    title: texts.title,
    content: (
      <>
        <DataTable caption={texts.caption} columns={texts.columns} rows={people.map(row)} />
        <section aria-labelledby="invite">
          <h2 id="invite">{texts.inviteHeading}</h2>
          <ActionForm action={invitePerson} submit={texts.inviteButton}>
            <Field name="name" label={texts.name} required />
            <Field name="email" type="email" label={texts.email} required />
            <TickField
              name="roles"
              label={texts.roles}
              options={ROLES.map((role) => [role, staff.roles[role], staff.rolesDo[role]])}
            />
          </ActionForm>
        </section>
        <section aria-labelledby="duty">
          <h2 id="duty">{texts.dutyHeading}</h2>
          <p>{texts.dutyText}</p>
          <ActionForm action={askFactors} submit={texts.dutyButton} label={texts.dutyHeading}>
            <TickField
              name="roles"
              label={texts.dutyRoles}
              values={duties}
              options={ROLES.map((role) => [role, staff.roles[role]])}
            />
          </ActionForm>
        </section>
      </>
    ),
  };
});

function row(person: Person) {
  const { id, name, email, roles } = person;
  return {
    key: id,
    cells: [
      <a key="name" href={`/staff/people/${id}`}>
        {name}
      </a>,
      email,
      roles.map((role) => staff.roles[role]).join(', '),
      stateOf(person),
    ],
  };
}

function stateOf({ closedAt, ready, twoFactor, mustHaveFactor }: Person): string {
  if (closedAt) return `${texts.state.closed}, ${closedAt.slice(0, 10)}`;
  if (!ready) return texts.state.waiting;
  if (twoFactor) return texts.state.factor;
  return mustHaveFactor ? texts.state.owes : texts.state.open;
}
