'use client';

import { useRouter } from 'next/navigation';
import { useEffect, useState } from 'react';
import { jobTexts as texts } from '../messages/jobs';
import { instantWords } from '../messages/when';
import type { JobSummary } from './job-summary';

const EVERY_MS = 1_000;

/** How far a job is, kept up to date; at its end the page is read anew. */
export function JobProgress({ job: first }: { job: JobSummary }) {
  const router = useRouter();
  const [job, setJob] = useState(first);
  useEffect(() => setJob(first), [first]);
  useEffect(() => {
    const timer = setInterval(async () => {
      const answer = await fetch(`/staff/jobs/${first.id}/progress`, { cache: 'no-store' }).catch(() => null);
      if (!answer?.ok) return;
      const now = (await answer.json()) as JobSummary;
      setJob(now);
      if (now.state === 'waiting' || now.state === 'running') return;
      clearInterval(timer);
      router.refresh();
    }, EVERY_MS);
    return () => clearInterval(timer);
  }, [first.id, router]);
  const counted = job.done !== null && job.whole !== null && job.whole > 0;
  return (
    <div className="job-progress">
      <p role="status" aria-live="polite">
        <strong>{texts.states[job.state]}</strong>
        {job.stage ? `: ${job.stage}` : ''}
        {job.cancelledBy ? ` ${texts.ending}` : ''}
      </p>
      {job.state === 'running' ? (
        <p>
          <progress aria-label={texts.progress} {...(counted ? { value: job.done!, max: job.whole! } : {})} />{' '}
          {counted ? texts.part(job.done!, job.whole!) : null}
        </p>
      ) : null}
      {job.attempts > 1 ? <p>{texts.again(job.attempts)}</p> : null}
      {job.waited !== null && job.waited > 60 ? <p>{texts.noWorker}</p> : null}
      <p className="quiet">
        {texts.asked(job.by, instantWords(job.requestedAt))} {texts.leave}
      </p>
      <noscript>
        <p>
          <a href="?">{texts.reload}</a>
        </p>
      </noscript>
    </div>
  );
}
