import { type ChildProcess, fork } from 'node:child_process';
import { availableParallelism } from 'node:os';

/**
 * Hands orders to processes of this machine's cores, one at a time to each, and gives the answers in the orders' order.
 *
 * @param module what a process runs: a module that calls `answerOrders`
 * @param begun told of each order as it is handed out
 */
export async function inProcesses<Order, Answer>(
  module: string,
  orders: readonly Order[],
  begun: (order: Order) => void,
): Promise<Answer[]> {
  const answers = new Array<Answer>(orders.length);
  let next = 0;
  const work = async () => {
    const child = fork(module);
    try {
      while (next < orders.length) {
        const at = next;
        next += 1;
        begun(orders[at]!);
        answers[at] = await ask<Order, Answer>(child, orders[at]!);
      }
    } finally {
      child.kill();
    }
  };
  const processes = Number(process.env.FENCEROW_PROCESSES ?? availableParallelism());
  await Promise.all(Array.from({ length: Math.min(processes, orders.length) }, work));
  return answers;
}

/** What a process of `inProcesses` does. */
export function answerOrders<Order, Answer>(answer: (order: Order) => Answer): void {
  process.on('message', (order: Order) => {
    process.send!(answer(order));
  });
}

function ask<Order, Answer>(child: ChildProcess, order: Order): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const ended = (code: number | null) =>
      reject(new Error(`A process of the calibration ended with ${code}.`));
    child.once('exit', ended);
    child.once('message', (answer) => {
      child.off('exit', ended);
      resolve(answer as Answer);
    });
    child.send(order as object);
  });
}
