import { parentPort } from 'node:worker_threads';
import { StatsError } from '@/lib/stats/errors';

/** An error loses its class on the way to another thread, so a typed one is sent in its parts. */
export type Reply<Answer> = { answer: Answer } | { code: StatsError['code']; message: string };

/** What a thread of `thread-pool.ts` does: one answer for each question, in their order. */
export function answerQuestions<Question, Answer>(answer: (question: Question) => Answer): void {
  parentPort!.on('message', (question: Question) => {
    parentPort!.postMessage(reply(() => answer(question)));
  });
}

function reply<Answer>(answer: () => Answer): Reply<Answer> {
  try {
    return { answer: answer() };
  } catch (error) {
    if (error instanceof StatsError) return { code: error.code, message: error.message };
    throw error;
  }
}
