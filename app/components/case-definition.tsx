import type { ReleaseHead } from '@/lib/release/types';
import type { Speech } from '../messages/texts';
import { AsTyped } from './as-typed';

/** When a population counts as resistant: translated where the definition came with the project, else as it was typed. */
export function CaseDefinition({
  speech,
  caseDefinition,
}: {
  speech: Speech;
  caseDefinition: ReleaseHead['caseDefinition'];
}) {
  const { texts } = speech;
  return (
    <>
      {texts.definitionWords(caseDefinition) ?? <AsTyped speech={speech}>{caseDefinition.words}</AsTyped>}{' '}
      {texts.methods.version(caseDefinition.version)}
    </>
  );
}
