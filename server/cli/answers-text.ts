/** The answers as tables for a terminal. It reads the JSON form, so that both always tell the same. */
import type { AnswersJson } from '../answers/answers-json.ts';
import { clearingTime } from '../rules/words.ts';

type Row = readonly string[];

export function answersText(json: AnswersJson): string {
  return [...json.cases.map(caseText), solarText(json.solar), directionsText(json), faultsText(json)]
    .filter((text) => text !== '')
    .join('\n');
}

/** What can be driven both ways, and what flows for a time: of all else the cases tell. */
function directionsText({ directions: { cores, contacts } }: AnswersJson): string {
  const named = [
    ...cores.map((core) => ({ ...core, name: `${core.run} ${core.core}` })),
    ...contacts.map((contact) => ({
      ...contact,
      name:
        contacts.filter(({ part }) => part === contact.part).length > 1
          ? `${contact.part}:${contact.pole}`
          : contact.part,
      heatingAmps: null,
    })),
  ];
  const both = named
    // A return goes the way of its feed.
    .filter(({ isReturn, forward, backward }) => !isReturn && forward.sources.length > 0 && backward.sources.length > 0)
    .map(({ name, from, to, forward, backward }) => [
      name,
      `${from} to ${to}`,
      forward.sources.join(' and '),
      unit(forward.lastingAmps, 'A', 2),
      backward.sources.join(' and '),
      unit(backward.lastingAmps, 'A', 2),
    ]);
  const short = named.flatMap(({ name, shortTime, heatingAmps }) =>
    shortTime.map(({ is, loads, amps, seconds: lasts, duty }) => [
      name,
      `${loads.join(' and ')} ${loads.length === 1 ? is : is.slice(0, -1)}`,
      unit(Math.abs(amps), 'A', 2),
      lasts === null ? 'not said' : seconds(lasts),
      duty === null ? '' : unit(100 * duty, '%', 1),
      unit(heatingAmps ?? undefined, 'A', 2),
    ]),
  );
  return [
    ...(both.length === 0
      ? []
      : ['Driven both ways', '', ...table(['', 'from, to', 'by', 'lasting', 'back by', 'lasting'], both), '']),
    ...(short.length === 0
      ? []
      : ['For a time', '', ...table(['', 'while', 'current', 'for', 'of the day', 'warms like'], short), '']),
  ].join('\n');
}

/** Panels, the same in every case. */
function solarText({ strings, inputs }: AnswersJson['solar']): string {
  if (strings.length === 0) return '';
  const rows = strings.map((one) => [
    one.panels.join(' and '),
    one.controller ?? '',
    unit(one.openVolts, 'V', 1),
    unit(one.coldVolts ?? undefined, 'V', 1),
    unit(one.hotVmp, 'V', 1),
    unit(one.shortCircuitAmps, 'A', 1),
    unit(one.reverseAmps, 'A', 1),
  ]);
  const controllers = inputs.map((one) => [
    one.controller,
    unit(one.coldVolts ?? undefined, 'V', 1),
    unit(one.mostVolts ?? undefined, 'V', 1),
    unit(one.shortCircuitAmps, 'A', 1),
    unit(one.mostAmps ?? undefined, 'A', 1),
    unit(one.chargeVolts ?? undefined, 'V', 1),
  ]);
  return [
    'Panels',
    '',
    ...table(['string', 'feeds', 'open', 'coldest', 'hottest', 'short circuit', 'backwards'], rows),
    '',
    ...table(['panel side', 'coldest', 'at most', 'short circuit', 'at most', 'charges to'], controllers),
    '',
  ].join('\n');
}

/** Short circuits, the same in every case. */
function faultsText({ faults, protection }: AnswersJson): string {
  const reached = Object.entries(faults.terminals).filter(([, { greatestAmps }]) => greatestAmps !== null);
  if (reached.length === 0) return '';
  const terminals = reached.map(([id, one]) => [
    id,
    unit(one.greatestAmps ?? undefined, 'A', 0),
    unit(one.leastAmps ?? undefined, 'A', 0),
  ]);
  const devices = protection.devices.map((one) => [
    protection.devices.filter(({ part }) => part === one.part).length > 1 ? `${one.part}:${one.pole}` : one.part,
    unit(one.greatestAmps, 'A', 0),
    unit(one.breaksAmps ?? undefined, 'A', 0),
    one.breaksFrom ?? 'not known',
    unit(one.leastAmps ?? undefined, 'A', 0),
    one.clears,
    seconds(one.leastSeconds),
  ]);
  const cores = protection.cores.map((one, i) => [
    one.run,
    one.core,
    one.devices.join(' and '),
    unit(faults.cores[i]?.leastAmps ?? undefined, 'A', 0),
    one.clears,
    seconds(one.seconds),
    unit(one.letThrough ?? undefined, 'A²s', 0),
    unit(one.withstand ?? undefined, 'A²s', 0),
  ]);
  return [
    'Short circuits',
    '',
    ...table(['terminal', 'greatest', 'least'], terminals),
    '',
    ...table(['device', 'greatest', 'breaks', 'by', 'least', 'clears', 'within'], devices),
    '',
    ...table(['run', 'core', 'device', 'far end', 'clears', 'within', 'lets through', 'bears'], cores),
    '',
  ].join('\n');
}

function seconds(value: number | null): string {
  return value === null ? '' : clearingTime(value);
}

function caseText(answer: AnswersJson['cases'][number]): string {
  const title = `Case ${answer.name}`;
  if (!answer.converged) return `${title}\n  No answer: ${answer.trouble ?? 'the wiring cannot feed its loads'}.\n`;
  const parts = Object.entries(answer.parts).map(([name, part]) => [
    name,
    unit(part.volts, 'V', 2),
    `${unit(part.amps, 'A', 2)}${part.limited ? ' (limit)' : ''}`,
    unit(part.watts, 'W', 1),
    unit(part.dropVolts, 'V', 2),
    unit(part.dropPercent, '%', 1),
  ]);
  const cores = answer.cores.map((core) => [
    core.run,
    core.core,
    `${core.from} to ${core.to}`,
    `${unit(core.amps, 'A', 2)}${core.assumed ? ' (assumed)' : ''}`,
    unit(core.capacityAmps ?? undefined, 'A', 1),
    unit(core.dropVolts, 'V', 3),
    unit(core.watts, 'W', 2),
    unit(core.celsius, '°C', 0),
  ]);
  return [
    title,
    '',
    ...table(['part', 'volts', 'current', 'power', 'drop', ''], parts),
    '',
    ...table(['run', 'core', 'from, to', 'current', 'capacity', 'drop', 'loss', 'warm'], cores),
    '',
  ].join('\n');
}

function unit(value: number | undefined, symbol: string, digits: number): string {
  if (value === undefined) return '';
  // A rounded nought has no sign.
  const rounded = value.toFixed(digits).replace(/^-(?=0(?:\.0*)?$)/, '');
  return `${rounded} ${symbol}`;
}

/** Columns as wide as their widest cell; figures to the right, words to the left. */
function table(head: Row, rows: readonly Row[]): string[] {
  if (rows.length === 0) return [];
  const all = [head, ...rows];
  const widths = head.map((_, column) => Math.max(...all.map((row) => (row[column] ?? '').length)));
  const figures = head.map((_, column) => rows.every((row) => /^$|^-?\d/.test(row[column] ?? '')));
  return all.map((row) =>
    `  ${row
      .map((cell, column) => (figures[column] ? cell.padStart(widths[column] ?? 0) : cell.padEnd(widths[column] ?? 0)))
      .join('  ')}`.trimEnd(),
  );
}
