/** A finding's page in Markdown: why it matters, the limit and its source, wrong and right, how to mend. */
import { tellStatus } from '../tables/table.ts';
import type { Example, Rule } from './rule.ts';

const usual =
  'Isolate and prove dead before you touch a conductor. Panels are live in daylight and a battery cannot be switched off. ' +
  'Mains voltage belongs to licensed people. Local codes and the makers’ instructions come first.';

const battery =
  'A battery can weld a spanner and start a fire in seconds: take off rings and watches, use insulated tools, take its ' +
  'negative off first and put it on last. Batteries being charged can give off gas that explodes: ventilate, and make no ' +
  'sparks near them.';

const arc =
  'Direct current keeps an arc burning: never open a switch above its rating, nor part a panel’s connector while current ' +
  'flows. Open the panels’ isolator and cover them first, and still take them for live.';

const drilling = 'Look for cables, gas pipes and tanks behind a wall before you drill through it.';

/** What to mind at the work that a finding asks for; reading and writing a spec endangers nobody. */
const cautionsOf: Readonly<Record<Rule['group'], readonly string[]>> = {
  language: [],
  spec: [],
  cable: [battery, usual],
  protection: [battery, arc, usual],
  switching: [arc, battery, usual],
  entries: [drilling, usual],
  battery: [battery, usual],
  panels: [arc, battery, usual],
  network: [battery, usual],
};

/** Accepting these would say nothing, or hide that something is not known. */
const isAllowed = ({ slug, group }: Rule) => group !== 'language' && group !== 'spec' && !slug.endsWith('-failed');

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
    tellStatus(page.limit),
    '## How to mend it',
    page.mend,
    ...examples('Wrong', page.wrong.slice(0, 2)),
    ...examples('Right', page.right.slice(0, 2)),
    ...(cautionsOf[rule.group].length === 0
      ? []
      : ['## Take care', cautionsOf[rule.group].map((caution) => `> ${caution}`).join('\n>\n')]),
    ...(isAllowed(rule)
      ? ['## To accept it', `With a reason that the next reader will understand: \`allow ${rule.slug} on NAME "why"\`.`]
      : []),
    ...(page.see === undefined ? [] : ['## See also', page.see.map((slug) => `- [${slug}](${slug}.md)`).join('\n')]),
  ];
  return `${pieces.join('\n\n')}\n`;
}

/** Examples carry marks for the tests; a reader needs none. */
export function withoutMarkers(spec: string): string {
  return spec.replace(/^# finds above: .*\n/gm, '').replace(/[ \t]*# finds: .*$/gm, '');
}
