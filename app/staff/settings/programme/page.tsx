import { may } from '@/lib/access/rights';
import { LICENCES } from '@/lib/release/files/licence';
import { ActionForm } from '../../components/action-form';
import { ChoiceField, Field, TickField } from '../../components/field';
import { staffPage } from '../../guard/staff-page';
import { homeTexts } from '../../messages/home';
import { settingsTexts } from '../../messages/settings';
import { SettingsFoot } from '../settings-foot';
import { saveProgramme } from './actions';

const texts = settingsTexts.programme;

/** What the programme says of itself. */
export default staffPage('settings.see', async ({ programme, person }) => {
  const mayChange = may(person.roles, 'settings.change');
  if (!programme) return { title: texts.title, content: <p>{homeTexts.start}</p> };
  const { name, contact, samplesTo, regulatedNotice, laboratory, licence, twoPublishers } = programme;
  return {
    title: texts.title,
    content: (
      <>
        <p>{texts.area(programme.regionName, programme.states.join(', '))}</p>
        <ActionForm action={saveProgramme} submit={texts.save} fixed={!mayChange}>
          <Field name="name" label={texts.name} value={name} required />
          <Field name="contact" label={texts.contact} hint={texts.contactHint} value={contact} lines={3} />
          <Field
            name="samplesTo"
            label={texts.samplesTo}
            hint={texts.samplesToHint}
            value={samplesTo}
            lines={4}
          />
          <Field
            name="regulatedNotice"
            label={texts.regulatedNotice}
            hint={texts.regulatedHint}
            value={regulatedNotice}
            lines={4}
          />
          <Field name="laboratory" label={texts.laboratory} value={laboratory} required />
          <ChoiceField
            name="licence"
            label={texts.licence}
            value={licence ?? ''}
            options={[['', texts.noLicence], ...LICENCES.map(({ id, title }) => [id, title] as const)]}
          />
          <TickField
            name="twoPublishers"
            label={texts.two}
            values={twoPublishers ? ['yes'] : []}
            options={[['yes', texts.twoWords]]}
          />
        </ActionForm>
        <SettingsFoot mayChange={mayChange} />
      </>
    ),
  };
});
