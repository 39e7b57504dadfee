import type { ReleaseHead } from '@/lib/release/types';
import type { Speech } from '../messages/texts';

/** How the numbers are made and what is withheld, in short. */
export function Methods({
  speech: { texts },
  head: { caseDefinition, policy },
}: {
  speech: Speech;
  head: ReleaseHead;
}) {
  return (
    <section className="methods" aria-labelledby="methods-heading">
      <h2 id="methods-heading">{texts.methods.heading}</h2>
      <p>
        <strong>{texts.methods.definition}.</strong> {caseDefinition.words}{' '}
        {texts.methods.version(caseDefinition.version)}
      </p>
      <p>{texts.methods.counting}</p>
      <p>{texts.methods.season}</p>
      <p>{texts.methods.interval}</p>
      <p>{texts.methods.withheld(policy.minimumTested, policy.minimumOperations, String(policy.version))}</p>
    </section>
  );
}
