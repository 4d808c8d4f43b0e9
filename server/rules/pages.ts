/** A finding's page in Markdown: why it matters, the limit and its source, wrong and right, how to mend. */
import type { Example, Rule } from './rule.ts';

const cautions =
  '> Isolate and prove dead before you touch a conductor. Panels are live in daylight and a battery cannot be switched off. ' +
  'Mains voltage belongs to licensed people. Local codes and the makers’ instructions come first.';

const severities = {
  error: 'An error: it can burn, shock, arc or destroy, or it keeps the spec from being read.',
  warning: 'A warning: it breaks good practice or will fail early.',
  advice: 'Advice: worth knowing.',
} as const;

export function pageOf(rule: Rule): string {
  const { page } = rule;
  const examples = (title: string, list: readonly Example[]) =>
    list.length === 0 ? [] : [`## ${title}`, ...list.map(({ spec }) => `\`\`\`amps\n${withoutMarkers(spec)}\`\`\``)];
  const pieces = [
    `# ${page.title}`,
    `\`${rule.slug}\``,
    severities[rule.severity],
    '## Why it matters',
    page.why,
    '## The limit, and where it comes from',
    page.limit,
    '## How to mend it',
    page.mend,
    ...examples('Wrong', page.wrong.slice(0, 2)),
    ...examples('Right', page.right.slice(0, 2)),
    ...(rule.group === 'language' ? [] : [cautions]),
    `To accept it with a reason, write \`allow ${rule.slug} on NAME "why"\`.`,
  ];
  return `${pieces.join('\n\n')}\n`;
}

/** Examples carry marks for the tests; a reader needs none. */
export function withoutMarkers(spec: string): string {
  return spec.replace(/^# finds above: .*\n/gm, '').replace(/[ \t]*# finds: .*$/gm, '');
}
