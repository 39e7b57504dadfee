import { personById } from '@/db/repositories/people';
import { ROLES } from '@/lib/vocabulary/roles';
import { ActionForm } from '../../components/action-form';
import { TickField } from '../../components/field';
import { Sorry } from '../../components/sorry';
import { staffPage } from '../../guard/staff-page';
import { staff } from '../../messages/en';
import { peopleTexts as texts } from '../../messages/people';
import { staffRegion } from '../../region';
import { AccountActions } from '../account-actions';
import { changeRoles } from '../actions';
import { CountiesField } from '../counties-field';

/** One account: its roles, its counties, and what can be done with it. */
export default staffPage('people.manage', async ({ db, params, programme }) => {
  const person = await personById(db, params.id ?? '');
  if (!person) return { title: staff.notFound.heading, status: 404, content: <Sorry text={texts.unknown} /> };
  return {
    title: person.name,
    content: (
      <>
        <p>{person.email}</p>
        <ActionForm action={changeRoles} submit={texts.change}>
          <input type="hidden" name="id" value={person.id} />
          <TickField
            name="roles"
            label={texts.roles}
            hint={texts.rolesHint}
            values={person.roles}
            options={ROLES.map((role) => [role, staff.roles[role], staff.rolesDo[role]])}
          />
          {programme ? <CountiesField region={staffRegion(programme)} chosen={person.counties} /> : null}
        </ActionForm>
        <AccountActions person={person} />
        <p>
          <a href="/staff/people">{texts.back}</a>
        </p>
      </>
    ),
  };
});
