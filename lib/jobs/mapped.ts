import type { SheetMapping } from '@/db/repositories/uploads';
import type { LaboratoryProfile } from '@/lib/intake/laboratory-profile';

/** What is known of a laboratory, with what was said of one sheet before it. */
export function mapped(profile: LaboratoryProfile, mapping?: SheetMapping): LaboratoryProfile {
  if (!mapping) return profile;
  return {
    ...profile,
    headings: { ...profile.headings, ...mapping.headings },
    lacking: { ...profile.lacking, ...mapping.lacking },
  };
}
