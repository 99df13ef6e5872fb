// Kinds of instruments as the field sheet names them, in the language of the crew.
import { say } from "./words.js";

const KINDS = {
  "torque screwdriver": "tool_kind_torque_screwdriver",
  "torque wrench": "tool_kind_torque_wrench",
  "insulation tester": "tool_kind_insulation_tester",
  multimeter: "tool_kind_multimeter",
  "clamp meter": "tool_kind_clamp_meter",
  "low-resistance ohmmeter": "tool_kind_low_resistance_ohmmeter",
  "loop tester": "tool_kind_loop_tester",
  "residual current tester": "tool_kind_residual_current_tester",
  "earth electrode tester": "tool_kind_earth_electrode_tester",
};

/** Kinds of instruments, in a line; one that the catalogue does not know as it stands on the sheet. */
export const kindsInWords = (kinds) => kinds.map((kind) => (Object.hasOwn(KINDS, kind) ? say(KINDS[kind]) : kind)).join(", ");
