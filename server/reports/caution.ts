/** What stands on every sheet and beside every picture: a drawing is believed by somebody who never saw the spec. */
export const caution =
  'Plan only. Isolate and prove dead: batteries are always live, panels in daylight. Mains is for licensed people. Local codes and makers’ instructions come first.';
