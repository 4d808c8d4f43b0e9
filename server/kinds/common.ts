/** Clauses that any part may have. */
import type { ClauseSpec } from '../../grammar/vocabulary.ts';
import { clause } from './define.ts';

export const glandSizes = ['M12', 'M16', 'M20', 'M25', 'M32', 'M40', 'M50', 'M63'] as const;

export const commonClauses: readonly ClauseSpec[] = [
  clause(
    'stock',
    '= {stock:name<stock>}',
    'Takes everything a stock says; clauses after it override.',
    '= lamp-small',
    ['hover:stock', 'answers'],
  ),
  clause('in', 'in {enclosure:name<enclosure>}', 'The enclosure it stands in.', 'in POWER-BOX', [
    'entry-unstated',
    'hover:enclosure',
  ]),
  clause('at', 'at {place:name<place>}', 'The place it is at, and so how warm it gets.', 'at GARAGE', [
    'cable-too-small',
    'hover:place',
  ]),
  clause(
    'terminals',
    'terminals {least:number|area|gauge} to {most:conductor}',
    'The smallest and largest conductor its terminals take.',
    'terminals 0.5 to 16 mm²',
    ['terminal-too-small-for-cable', 'hover:part'],
  ),
  // Coarse threads of ISO 261, those that studs of such parts usually have (common practice, no source).
  clause('stud', 'stud {size:thread}', 'The thread of its studs.', 'stud M8', ['stud-mismatch', 'hover:part'], {
    standardValues: ['M5', 'M6', 'M8', 'M10', 'M12'],
  }),
  clause('torque', 'torque {torque:torque}', 'The tightening torque of its terminals.', 'torque 9 Nm', [
    'hover:part',
    'later: fitting sheet',
  ]),
  clause('reference', 'reference {reference:text}', 'The maker’s reference, for the parts list.', 'reference "AB-12"', [
    'hover:part',
    'later: parts list',
  ]),
  clause('price', 'price {amount:number} {currency:word}', 'What it costs, for the parts list.', 'price 12.50 EUR', [
    'hover:part',
    'later: parts list',
  ]),
];

/** The same for a part with ways through it (fuse, switch, shunt): on any other a contact's resistance would mean nothing. */
export const commonClausesWithContacts: readonly ClauseSpec[] = [
  ...commonClauses,
  clause(
    'contacts',
    'contacts {resistance:resistance}',
    'The resistance of each way through it; 0 Ω when unsaid.',
    'contacts 1 mΩ',
    ['answers', 'hover:part'],
  ),
];
