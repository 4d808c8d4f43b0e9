// Made from the folder by generate.ts; do not edit by hand.
import type { StatementSpec } from '../../grammar/vocabulary.ts';
import { kind as alternatorKind } from './alternator.ts';
import type { KindSpec } from './kind.ts';
import { kind as batteryKind } from './battery.ts';
import { kind as blockKind } from './block.ts';
import { kind as breakerKind } from './breaker.ts';
import { kind as busbarKind } from './busbar.ts';
import { kind as cableKind } from './cable.ts';
import { kind as chargerKind } from './charger.ts';
import { kind as chassisKind } from './chassis.ts';
import { kind as connectorKind } from './connector.ts';
import { kind as controllerKind } from './controller.ts';
import { kind as converterKind } from './converter.ts';
import { kind as diodeKind } from './diode.ts';
import { kind as enclosureKind } from './enclosure.ts';
import { kind as entryKind } from './entry.ts';
import { kind as fuseKind } from './fuse.ts';
import { kind as fuseboxKind } from './fusebox.ts';
import { kind as inverterKind } from './inverter.ts';
import { kind as isolatorKind } from './isolator.ts';
import { kind as limitSetKind } from './limit-set.ts';
import { kind as loadKind } from './load.ts';
import { kind as panelKind } from './panel.ts';
import { kind as relayKind } from './relay.ts';
import { kind as selectorKind } from './selector.ts';
import { kind as shuntKind } from './shunt.ts';
import { kind as socketKind } from './socket.ts';
import { kind as spliceKind } from './splice.ts';
import { kind as switchKind } from './switch.ts';
import { statement as allowStatement } from './statements/allow.ts';
import { statement as caseStatement } from './statements/case.ts';
import { statement as expectStatement } from './statements/expect.ts';
import { statement as linkStatement } from './statements/link.ts';
import { statement as placeStatement } from './statements/place.ts';
import { statement as readingStatement } from './statements/reading.ts';
import { statement as runStatement } from './statements/run.ts';
import { statement as stockStatement } from './statements/stock.ts';
import { statement as systemStatement } from './statements/system.ts';
import { statement as useStatement } from './statements/use.ts';

export const allKinds: readonly KindSpec[] = [
  alternatorKind,
  batteryKind,
  blockKind,
  breakerKind,
  busbarKind,
  cableKind,
  chargerKind,
  chassisKind,
  connectorKind,
  controllerKind,
  converterKind,
  diodeKind,
  enclosureKind,
  entryKind,
  fuseKind,
  fuseboxKind,
  inverterKind,
  isolatorKind,
  limitSetKind,
  loadKind,
  panelKind,
  relayKind,
  selectorKind,
  shuntKind,
  socketKind,
  spliceKind,
  switchKind,
];

export const allStatements: readonly StatementSpec[] = [
  allowStatement,
  caseStatement,
  expectStatement,
  linkStatement,
  placeStatement,
  readingStatement,
  runStatement,
  stockStatement,
  systemStatement,
  useStatement,
];
