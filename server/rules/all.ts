// Made from the folder by generate.ts; do not edit by hand.
import { rule as allowUnknown } from './allow-unknown.ts';
import { rule as allowUnused } from './allow-unused.ts';
import { rule as alternatorWithoutLimit } from './alternator-without-limit.ts';
import { rule as aluminiumCoreAsCopper } from './aluminium-core-as-copper.ts';
import { rule as answersFailed } from './answers-failed.ts';
import { rule as badName } from './bad-name.ts';
import { rule as bankFuseEach } from './bank-fuse-each.ts';
import { rule as bankUnbalanced } from './bank-unbalanced.ts';
import { rule as barOnOneSide } from './bar-on-one-side.ts';
import { rule as batteriesMixed } from './batteries-mixed.ts';
import { rule as batteryOpenedBeforePanels } from './battery-opened-before-panels.ts';
import { rule as belowLeastSize } from './below-least-size.ts';
import { rule as blankUnfilled } from './blank-unfilled.ts';
import { rule as bothEndsNeedProtection } from './both-ends-need-protection.ts';
import { rule as boxIpForPlace } from './box-ip-for-place.ts';
import { rule as breakerNotDc } from './breaker-not-dc.ts';
import { rule as breakerReversed } from './breaker-reversed.ts';
import { rule as bypassesShunt } from './bypasses-shunt.ts';
import { rule as cableTooSmall } from './cable-too-small.ts';
import { rule as cableWithstand } from './cable-withstand.ts';
import { rule as caseNotBonded } from './case-not-bonded.ts';
import { rule as caseUnanswered } from './case-unanswered.ts';
import { rule as chafeWithoutGrommet } from './chafe-without-grommet.ts';
import { rule as chargeCurrentOverBattery } from './charge-current-over-battery.ts';
import { rule as chargeVoltageAndChemistry } from './charge-voltage-and-chemistry.ts';
import { rule as chargingDrop } from './charging-drop.ts';
import { rule as chassisReturnTooThin } from './chassis-return-too-thin.ts';
import { rule as circleOfNames } from './circle-of-names.ts';
import { rule as circleOfUse } from './circle-of-use.ts';
import { rule as clauseTwice } from './clause-twice.ts';
import { rule as coilBehindOwnContact } from './coil-behind-own-contact.ts';
import { rule as coilVoltage } from './coil-voltage.ts';
import { rule as colourAndPolarity } from './colour-and-polarity.ts';
import { rule as conductorClassUnknown } from './conductor-class-unknown.ts';
import { rule as connectorBelowFuse } from './connector-below-fuse.ts';
import { rule as contradictoryLimits } from './contradictory-limits.ts';
import { rule as controllerOutputUnfused } from './controller-output-unfused.ts';
import { rule as controllerSidesSwapped } from './controller-sides-swapped.ts';
import { rule as coresMiscounted } from './cores-miscounted.ts';
import { rule as deadInCase } from './dead-in-case.ts';
import { rule as decimalComma } from './decimal-comma.ts';
import { rule as diodeReversed } from './diode-reversed.ts';
import { rule as dischargeOverBattery } from './discharge-over-battery.ts';
import { rule as dropOverLimit } from './drop-over-limit.ts';
import { rule as endMissing } from './end-missing.ts';
import { rule as entryUnstated } from './entry-unstated.ts';
import { rule as entryWithoutGland } from './entry-without-gland.ts';
import { rule as essentialLoadIsolated } from './essential-load-isolated.ts';
import { rule as expectNotMet } from './expect-not-met.ts';
import { rule as expectUnchecked } from './expect-unchecked.ts';
import { rule as faceAndTerminals } from './face-and-terminals.ts';
import { rule as fuseAboveAppliance } from './fuse-above-appliance.ts';
import { rule as fuseBelowLoad } from './fuse-below-load.ts';
import { rule as fuseBreakingCapacity } from './fuse-breaking-capacity.ts';
import { rule as fuseHot } from './fuse-hot.ts';
import { rule as fuseInReturn } from './fuse-in-return.ts';
import { rule as fuseNeverBlows } from './fuse-never-blows.ts';
import { rule as fuseOddRating } from './fuse-odd-rating.ts';
import { rule as fuseVoltage } from './fuse-voltage.ts';
import { rule as fuseboxTotal } from './fusebox-total.ts';
import { rule as glandAndCable } from './gland-and-cable.ts';
import { rule as glandAndKnockout } from './gland-and-knockout.ts';
import { rule as glandIpBelowBox } from './gland-ip-below-box.ts';
import { rule as hashGauge } from './hash-gauge.ts';
import { rule as heatSourceNearCable } from './heat-source-near-cable.ts';
import { rule as ignitionNearVentedBattery } from './ignition-near-vented-battery.ts';
import { rule as impossibleValue } from './impossible-value.ts';
import { rule as indentedStatement } from './indented-statement.ts';
import { rule as insulationForPlace } from './insulation-for-place.ts';
import { rule as inverterInputDrop } from './inverter-input-drop.ts';
import { rule as isolatorOutOfReach } from './isolator-out-of-reach.ts';
import { rule as knockoutLeftOpen } from './knockout-left-open.ts';
import { rule as lengthMissing } from './length-missing.ts';
import { rule as linkedRatingUnstated } from './linked-rating-unstated.ts';
import { rule as lithiumChargedInFrost } from './lithium-charged-in-frost.ts';
import { rule as loadAboveHighestVoltage } from './load-above-highest-voltage.ts';
import { rule as loadBelowLowestVoltage } from './load-below-lowest-voltage.ts';
import { rule as loadOnPartOfBank } from './load-on-part-of-bank.ts';
import { rule as mainsColoursOnDc } from './mains-colours-on-dc.ts';
import { rule as misplacedClause } from './misplaced-clause.ts';
import { rule as missingName } from './missing-name.ts';
import { rule as missingRequiredClause } from './missing-required-clause.ts';
import { rule as missingSeparator } from './missing-separator.ts';
import { rule as missingUnit } from './missing-unit.ts';
import { rule as moreEntriesThanKnockouts } from './more-entries-than-knockouts.ts';
import { rule as nameTwice } from './name-twice.ts';
import { rule as negativeBondedTwice } from './negative-bonded-twice.ts';
import { rule as noIsolation } from './no-isolation.ts';
import { rule as noReturn } from './no-return.ts';
import { rule as noSource } from './no-source.ts';
import { rule as notSelective } from './not-selective.ts';
import { rule as oneConductorSwitched } from './one-conductor-switched.ts';
import { rule as panelFiguresDisagree } from './panel-figures-disagree.ts';
import { rule as panelWithoutController } from './panel-without-controller.ts';
import { rule as panelsMismatched } from './panels-mismatched.ts';
import { rule as parallelCoresUnequal } from './parallel-cores-unequal.ts';
import { rule as partNeverUsed } from './part-never-used.ts';
import { rule as polarityReversed } from './polarity-reversed.ts';
import { rule as polesCrossed } from './poles-crossed.ts';
import { rule as protectionTooFar } from './protection-too-far.ts';
import { rule as pvBelowChargingVoltage } from './pv-below-charging-voltage.ts';
import { rule as pvCurrentOverController } from './pv-current-over-controller.ts';
import { rule as pvVoltageOverController } from './pv-voltage-over-controller.ts';
import { rule as ratingsUnstated } from './ratings-unstated.ts';
import { rule as readingOutsideExpectation } from './reading-outside-expectation.ts';
import { rule as relayAlwaysOn } from './relay-always-on.ts';
import { rule as reservedName } from './reserved-name.ts';
import { rule as returnThinnerThanFeed } from './return-thinner-than-feed.ts';
import { rule as ruleFailed } from './rule-failed.ts';
import { rule as secondSystem } from './second-system.ts';
import { rule as selectorCommonSwapped } from './selector-common-swapped.ts';
import { rule as seriesRatingUnstated } from './series-rating-unstated.ts';
import { rule as shortCircuit } from './short-circuit.ts';
import { rule as solidConductorInVehicle } from './solid-conductor-in-vehicle.ts';
import { rule as spareFuseMismatch } from './spare-fuse-mismatch.ts';
import { rule as strayCharacter } from './stray-character.ts';
import { rule as stringFuseNeeded } from './string-fuse-needed.ts';
import { rule as stringFuseTooLarge } from './string-fuse-too-large.ts';
import { rule as studMismatch } from './stud-mismatch.ts';
import { rule as supplyUnfused } from './supply-unfused.ts';
import { rule as switchBelowFuse } from './switch-below-fuse.ts';
import { rule as switchBelowLoad } from './switch-below-load.ts';
import { rule as switchCategory } from './switch-category.ts';
import { rule as switchInGasLocker } from './switch-in-gas-locker.ts';
import { rule as switchNotDc } from './switch-not-dc.ts';
import { rule as switchVoltage } from './switch-voltage.ts';
import { rule as systemVoltageUnmet } from './system-voltage-unmet.ts';
import { rule as terminalTooSmallForCable } from './terminal-too-small-for-cable.ts';
import { rule as terminalUnconnected } from './terminal-unconnected.ts';
import { rule as tooManyOnOneStud } from './too-many-on-one-stud.ts';
import { rule as unclosedText } from './unclosed-text.ts';
import { rule as unitSpelling } from './unit-spelling.ts';
import { rule as unknownClause } from './unknown-clause.ts';
import { rule as unknownName } from './unknown-name.ts';
import { rule as unknownPosition } from './unknown-position.ts';
import { rule as unknownStatement } from './unknown-statement.ts';
import { rule as unknownTerminal } from './unknown-terminal.ts';
import { rule as useMissing } from './use-missing.ts';
import { rule as usedFileHasProblems } from './used-file-has-problems.ts';
import { rule as ventedBatteryIndoors } from './vented-battery-indoors.ts';
import { rule as voltageCollapse } from './voltage-collapse.ts';
import { rule as voltagesJoined } from './voltages-joined.ts';
import { rule as wrongStockKind } from './wrong-stock-kind.ts';
import { rule as wrongUnit } from './wrong-unit.ts';
import type { Rule } from './rule.ts';

export const allRules: readonly Rule[] = [
  allowUnknown,
  allowUnused,
  alternatorWithoutLimit,
  aluminiumCoreAsCopper,
  answersFailed,
  badName,
  bankFuseEach,
  bankUnbalanced,
  barOnOneSide,
  batteriesMixed,
  batteryOpenedBeforePanels,
  belowLeastSize,
  blankUnfilled,
  bothEndsNeedProtection,
  boxIpForPlace,
  breakerNotDc,
  breakerReversed,
  bypassesShunt,
  cableTooSmall,
  cableWithstand,
  caseNotBonded,
  caseUnanswered,
  chafeWithoutGrommet,
  chargeCurrentOverBattery,
  chargeVoltageAndChemistry,
  chargingDrop,
  chassisReturnTooThin,
  circleOfNames,
  circleOfUse,
  clauseTwice,
  coilBehindOwnContact,
  coilVoltage,
  colourAndPolarity,
  conductorClassUnknown,
  connectorBelowFuse,
  contradictoryLimits,
  controllerOutputUnfused,
  controllerSidesSwapped,
  coresMiscounted,
  deadInCase,
  decimalComma,
  diodeReversed,
  dischargeOverBattery,
  dropOverLimit,
  endMissing,
  entryUnstated,
  entryWithoutGland,
  essentialLoadIsolated,
  expectNotMet,
  expectUnchecked,
  faceAndTerminals,
  fuseAboveAppliance,
  fuseBelowLoad,
  fuseBreakingCapacity,
  fuseHot,
  fuseInReturn,
  fuseNeverBlows,
  fuseOddRating,
  fuseVoltage,
  fuseboxTotal,
  glandAndCable,
  glandAndKnockout,
  glandIpBelowBox,
  hashGauge,
  heatSourceNearCable,
  ignitionNearVentedBattery,
  impossibleValue,
  indentedStatement,
  insulationForPlace,
  inverterInputDrop,
  isolatorOutOfReach,
  knockoutLeftOpen,
  lengthMissing,
  linkedRatingUnstated,
  lithiumChargedInFrost,
  loadAboveHighestVoltage,
  loadBelowLowestVoltage,
  loadOnPartOfBank,
  mainsColoursOnDc,
  misplacedClause,
  missingName,
  missingRequiredClause,
  missingSeparator,
  missingUnit,
  moreEntriesThanKnockouts,
  nameTwice,
  negativeBondedTwice,
  noIsolation,
  noReturn,
  noSource,
  notSelective,
  oneConductorSwitched,
  panelFiguresDisagree,
  panelWithoutController,
  panelsMismatched,
  parallelCoresUnequal,
  partNeverUsed,
  polarityReversed,
  polesCrossed,
  protectionTooFar,
  pvBelowChargingVoltage,
  pvCurrentOverController,
  pvVoltageOverController,
  ratingsUnstated,
  readingOutsideExpectation,
  relayAlwaysOn,
  reservedName,
  returnThinnerThanFeed,
  ruleFailed,
  secondSystem,
  selectorCommonSwapped,
  seriesRatingUnstated,
  shortCircuit,
  solidConductorInVehicle,
  spareFuseMismatch,
  strayCharacter,
  stringFuseNeeded,
  stringFuseTooLarge,
  studMismatch,
  supplyUnfused,
  switchBelowFuse,
  switchBelowLoad,
  switchCategory,
  switchInGasLocker,
  switchNotDc,
  switchVoltage,
  systemVoltageUnmet,
  terminalTooSmallForCable,
  terminalUnconnected,
  tooManyOnOneStud,
  unclosedText,
  unitSpelling,
  unknownClause,
  unknownName,
  unknownPosition,
  unknownStatement,
  unknownTerminal,
  useMissing,
  usedFileHasProblems,
  ventedBatteryIndoors,
  voltageCollapse,
  voltagesJoined,
  wrongStockKind,
  wrongUnit,
];
