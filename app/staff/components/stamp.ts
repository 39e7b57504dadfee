import { staff } from '../messages/en';

/** What is written into a picture of simulated data; null where they are real. */
export function stampOf(simulated: boolean): string | null {
  return simulated ? staff.stamp : null;
}
