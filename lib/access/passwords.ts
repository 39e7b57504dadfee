/** How long a password may be, in characters. */
export const SHORTEST_PASSWORD = 12;
export const LONGEST_PASSWORD = 200;
