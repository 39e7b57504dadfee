import type { ReleaseHead } from '@/lib/release/types';
import type { Speech } from '../messages/texts';
import { CaseDefinition } from './case-definition';

/** How the numbers are made and what is withheld, in short. */
export function Methods({ speech, head: { caseDefinition, policy } }: { speech: Speech; head: ReleaseHead }) {
  const { texts, at } = speech;
  return (
    <section className="methods" aria-labelledby="methods-heading">
      <h2 id="methods-heading">{texts.methods.heading}</h2>
      <p>
        <strong>{texts.methods.definition}.</strong>{' '}
        <CaseDefinition speech={speech} caseDefinition={caseDefinition} />
      </p>
      <p>{texts.methods.counting}</p>
      <p>{texts.methods.season}</p>
      <p>{texts.methods.interval}</p>
      <p>{texts.methods.withheld(policy.minimumTested, policy.minimumOperations, String(policy.version))}</p>
      <p>
        <a href={at('/methods')}>{texts.foot.methods}</a> · <a href={at('/privacy')}>{texts.foot.privacy}</a>
      </p>
    </section>
  );
}
