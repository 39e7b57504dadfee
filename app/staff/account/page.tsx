import type { Person } from '@/db/repositories/people';
import { countyName } from '@/lib/geography/atlas';
import { ActionForm } from '../components/action-form';
import { NewPassword, OwnPassword } from '../components/password-fields';
import { staffPage } from '../guard/staff-page';
import { accountTexts as texts } from '../messages/account';
import { staff } from '../messages/en';
import { changePassword, stopSecondFactor } from './actions';
import { SecondFactorSetup } from './second-factor';

/** One's own account: what it may do, its password, its second factor, which comes first where it is owed. */
export default staffPage('account.change', async ({ person }) => {
  const owes = person.mustHaveFactor && !person.twoFactor;
  const factor = <SecondFactor person={person} />;
  return {
    title: texts.title,
    content: (
      <>
        {owes ? (
          <p className="staff-outcome" role="status">
            {texts.owed}
          </p>
        ) : null}
        {owes ? factor : null}
        <Roles person={person} />
        <section aria-labelledby="password">
          <h2 id="password">{texts.passwordHeading}</h2>
          <ActionForm action={changePassword} submit={texts.changePassword}>
            <OwnPassword name="current" label={texts.current} />
            <NewPassword />
          </ActionForm>
        </section>
        {owes ? null : factor}
      </>
    ),
  };
});

function Roles({ person }: { person: Person }) {
  return (
    <section aria-labelledby="roles">
      <h2 id="roles">{texts.roles}</h2>
      <ul>
        {person.roles.map((role) => (
          <li key={role}>
            {staff.roles[role]}: {staff.rolesDo[role]}
          </li>
        ))}
      </ul>
      {person.counties.length > 0 ? (
        <p>{texts.counties(person.counties.map((fips) => countyName(fips) ?? fips).join(', '))}</p>
      ) : null}
    </section>
  );
}

function SecondFactor({ person: { twoFactor, mustHaveFactor } }: { person: Person }) {
  return (
    <section aria-labelledby="factor">
      <h2 id="factor">{texts.factorHeading}</h2>
      <p>{twoFactor ? texts.factorOn : texts.factorOff}</p>
      {twoFactor && mustHaveFactor ? (
        <p>{texts.must}</p>
      ) : twoFactor ? (
        <ActionForm action={stopSecondFactor} submit={texts.stop} grave>
          <OwnPassword />
        </ActionForm>
      ) : (
        <SecondFactorSetup />
      )}
    </section>
  );
}
