import { Worker } from 'node:worker_threads';
import { StatsError } from '@/lib/stats/errors';
import type { Reply } from './answer';

export interface ThreadPool<Question, Answer> {
  /**
   * Hands a question to the next free thread, in the order of asking.
   * @param question made when a thread is free; it is told which, so that what that thread has already need not be sent
   */
  ask(question: (thread: object) => Question): Promise<Answer>;
  /** Ends the threads; questions without an answer fail. Without it the process does not end. */
  close(): Promise<void>;
}

/**
 * Threads that each answer one question at a time.
 *
 * @param module what a thread runs: a file beside this one that calls `answerQuestions`
 * @param threads at least 1; more than the machine has cores gain nothing
 * @throws StatsError `bad argument` for the threads; a question fails with the error of whoever answered
 * @cost about 0.2 s to start, once
 */
export function startThreads<Question, Answer>(
  module: './scan-thread.ts' | './part-thread.ts',
  threads: number,
): ThreadPool<Question, Answer> {
  if (!(Number.isInteger(threads) && threads >= 1)) {
    throw new StatsError('bad argument', `Got ${threads} threads; expected an integer ≥ 1.`);
  }
  const waiting: Task<Question, Answer>[] = [];
  let ended: Error | null = null;
  const pool = Array.from({ length: threads }, () => startThread<Question, Answer>(module, end));

  return {
    ask(question) {
      return new Promise((done, failed) => {
        waiting.push({ question, done, failed });
        handOut();
      });
    },
    async close() {
      end(new Error('The threads were closed.'));
      await Promise.all(pool.map(({ worker }) => worker.terminate()));
    },
  };

  function handOut(): void {
    if (ended) end(ended);
    for (const thread of pool.filter(({ task }) => task === null)) {
      const task = waiting.shift();
      if (task) give(thread, task, handOut);
    }
  }

  /** Nothing is left waiting for a thread that will not answer. */
  function end(reason: Error): void {
    ended ??= reason;
    for (const { failed } of waiting.splice(0)) failed(ended);
    for (const { task } of pool) task?.failed(ended);
  }
}

interface Task<Question, Answer> {
  question: (thread: object) => Question;
  done: (answer: Answer) => void;
  failed: (error: Error) => void;
}

interface Thread<Question, Answer> {
  worker: Worker;
  task: Task<Question, Answer> | null;
}

function startThread<Question, Answer>(
  module: string,
  crashed: (error: Error) => void,
): Thread<Question, Answer> {
  // Without the flags of whoever starts it: those of a test runner or a server are none of its business.
  const worker = new Worker(new URL('./thread.mjs', import.meta.url), {
    execArgv: [],
    workerData: { module },
  });
  worker.on('error', crashed);
  return { worker, task: null };
}

function give<Question, Answer>(
  thread: Thread<Question, Answer>,
  task: Task<Question, Answer>,
  freed: () => void,
): void {
  thread.task = task;
  thread.worker.once('message', (reply: Reply<Answer>) => {
    thread.task = null;
    freed();
    if ('answer' in reply) task.done(reply.answer);
    else task.failed(new StatsError(reply.code, reply.message));
  });
  thread.worker.postMessage(task.question(thread));
}
