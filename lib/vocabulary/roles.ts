/** What somebody on the staff side is there for; a person may have several roles. */
export const ROLES = ['educator', 'analyst', 'publisher', 'administrator'] as const;
export type Role = (typeof ROLES)[number];
