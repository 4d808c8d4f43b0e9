/** Keywords that stand together: `charge voltage`, `most series fuse`. */
import type { Expected, Step } from '../../../grammar/forms.ts';
import type { Context } from './context.ts';

/** A keyword with the keywords that must follow it, and the step of its form that comes then. */
export function phraseFrom(
  { at }: Context,
  expected: Expected & { is: 'word' },
): { readonly phrase: string; readonly next: Step | undefined } {
  const { steps } = at.spec?.forms.find((form) => form.clause === expected.clause) ?? { steps: [] };
  let next = steps.findIndex((step) => 'expected' in step && step.expected.includes(expected)) + 1;
  let phrase = expected.word;
  for (let step = steps[next]; step?.is === 'word'; step = steps[++next]) phrase += ` ${step.word}`;
  return { phrase, next: steps[next] };
}
