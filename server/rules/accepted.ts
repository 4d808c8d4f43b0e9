/** What a spec accepts. A finding that is accepted stands for no other: what it would have told of is told again. */
import type { Model } from '../model/model.ts';

/** Whether an `allow` accepts such a finding, of that subject or of all. */
export function isAccepted({ allowances }: Model, slug: string, subject: string | undefined): boolean {
  return allowances.some((one) => accepts(one, slug, subject));
}

/** Whether it is this `allow` that does. An empty text gives no reason; reading tells of it, so it accepts nothing. */
export function accepts(allowance: Model['allowances'][number], slug: string, subject: string | undefined): boolean {
  const { reason } = allowance;
  return (
    allowance.slug === slug && isReason(reason) && (allowance.subject === undefined || allowance.subject === subject)
  );
}

export function isReason(reason: string | undefined): boolean {
  return reason !== undefined && reason.trim() !== '';
}
