import { ActionForm } from '../../components/action-form';
import { Door } from '../../components/door';
import { Field } from '../../components/field';
import { theStaffSide } from '../../guard/current';
import { door } from '../../messages/door';
import { enterCode } from '../actions';
import { next as nextPage } from '../schemas';

/** The second step of signing in. */
export default async function CodePage({ searchParams }: { searchParams: Promise<{ next?: string }> }) {
  await theStaffSide();
  const next = nextPage.parse((await searchParams).next);
  return (
    <Door title={door.code.heading}>
      <p>{door.code.text}</p>
      <ActionForm action={enterCode} submit={door.code.button}>
        <input type="hidden" name="next" value={next} />
        <Field name="code" label={door.code.code} autoComplete="one-time-code" required />
      </ActionForm>
      <p>
        <a href="/staff/sign-in">{door.code.back}</a>
      </p>
    </Door>
  );
}
