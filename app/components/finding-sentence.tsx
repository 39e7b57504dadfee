import type { Region } from '@/lib/geography/types';
import type { Told } from '../messages/en/sentences';
import type { Speech } from '../messages/texts';
import { AsTyped } from './as-typed';

/** What a finding says; a reason of which this language does not know the words stands as the release has it. */
export function FindingSentence({
  speech,
  finding,
  region,
}: {
  speech: Speech;
  finding: Told;
  region: Region;
}) {
  const { words, asWritten } = speech.texts.say.findingWords(finding, region);
  return (
    <>
      {words}
      {asWritten === null ? null : (
        <>
          {' '}
          <AsTyped speech={speech}>{asWritten}</AsTyped>
        </>
      )}
    </>
  );
}
