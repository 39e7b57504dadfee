import { countyName } from '@/lib/geography/atlas';
import { ActionForm } from '../components/action-form';
import { NewPassword, OwnPassword } from '../components/password-fields';
import { staffPage } from '../guard/staff-page';
import { accountTexts as texts } from '../messages/account';
import { staff } from '../messages/en';
import { changePassword, stopSecondFactor } from './actions';
import { SecondFactorSetup } from './second-factor';

/** One's own account: what it may do, its password, its second factor. */
export default staffPage('account.change', async ({ person }) => ({
  title: texts.title,
  content: (
    <>
      {person.mustHaveFactor && !person.twoFactor ? (
        <p className="staff-outcome" role="status">
          {texts.owed} <a href="#factor">{texts.factorHeading}</a>
        </p>
      ) : null}
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
      <section aria-labelledby="password">
        <h2 id="password">{texts.passwordHeading}</h2>
        <ActionForm action={changePassword} submit={texts.changePassword}>
          <OwnPassword name="current" label={texts.current} />
          <NewPassword />
        </ActionForm>
      </section>
      <section aria-labelledby="factor">
        <h2 id="factor">{texts.factorHeading}</h2>
        <p>{person.twoFactor ? texts.factorOn : texts.factorOff}</p>
        {person.twoFactor && person.mustHaveFactor ? (
          <p>{texts.must}</p>
        ) : person.twoFactor ? (
          <ActionForm action={stopSecondFactor} submit={texts.stop} grave>
            <OwnPassword />
          </ActionForm>
        ) : (
          <SecondFactorSetup />
        )}
      </section>
    </>
  ),
}));
