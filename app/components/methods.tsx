import type { ReleaseHead } from '@/lib/release/types';
import { en } from '../messages/en';

/** How the numbers are made and what is withheld, in short. */
export function Methods({ head: { caseDefinition, policy } }: { head: ReleaseHead }) {
  return (
    <section className="methods" aria-labelledby="methods-heading">
      <h2 id="methods-heading">{en.methods.heading}</h2>
      <p>
        <strong>{en.methods.definition}.</strong> {caseDefinition.words} (version {caseDefinition.version})
      </p>
      <p>{en.methods.counting}</p>
      <p>{en.methods.season}</p>
      <p>{en.methods.interval}</p>
      <p>
        The numbers of a place are withheld together where fewer than {policy.minimumTested} populations were
        screened, fewer than {policy.minimumOperations} operations sent them, one operation sent too large a
        part of them, or all, all but one or none of the populations of a few operations were resistant, and
        where a withheld number could be worked out from its neighbours. Before publication an audit looks for
        any withheld number that can still be worked out, and no release passes with one. Policy{' '}
        {policy.version}.
      </p>
    </section>
  );
}
