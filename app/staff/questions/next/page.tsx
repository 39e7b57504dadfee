import { redirect } from 'next/navigation';
import { nextQuestion } from '@/db/repositories/question-desk';
import { staffPage } from '../../guard/staff-page';
import { readScope, scopeQuery } from '../scope';

/** Leads to the next open question. */
export default staffPage('questions.see', async ({ db, search }) => {
  const scope = readScope(search);
  const after =
    typeof search.after === 'string' && /^\d{1,12}$/.test(search.after) ? Number(search.after) : 0;
  const next = await nextQuestion(db, scope, after);
  return redirect(`/staff/questions${next === null ? '' : `/${next}`}${scopeQuery(scope)}`);
});
