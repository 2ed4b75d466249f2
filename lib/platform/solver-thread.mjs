// A thread that solves linear models one after the other. Plain JavaScript: it is started by its path, beside any bundle.
import { parentPort } from "node:worker_threads";
import loadHighs from "highs";

const highs = await loadHighs();
const { modelStatus } = highs.constants;

function solve(lpText, seconds) {
  return highs.withModel({ format: "lp", data: lpText }, (model) => {
    // For models of a hundred columns: guessing at answers costs 30 ms whatever the size, and beginning anew costs more than it spares.
    model.options.set({
      output_flag: false, time_limit: seconds, mip_rel_gap: 0, mip_abs_gap: 0, random_seed: 1,
      mip_heuristic_run_feasibility_jump: false, mip_heuristic_effort: 0, mip_allow_restart: false,
    });
    model.run();
    const status = model.getModelStatus();
    if (status === modelStatus.empty || status === modelStatus.notSet) throw new Error("there is no model in the text");
    if (status === modelStatus.infeasible) return { status: "impossible", gap: 0, values: {} };
    const hasAnswer = model.info.get("primal_solution_status") === 2;
    if (!hasAnswer) return { status: "no-answer", gap: Infinity, values: {} };
    const { colValue } = model.getSolution();
    const values = Object.fromEntries([...colValue].map((value, column) => [model.getColName(column), value]));
    const gap = Number(model.info.get("mip_gap"));
    return status === modelStatus.optimal ? { status: "best", gap: 0, values } : { status: "good", gap, values };
  });
}

parentPort.on("message", ({ id, lpText, seconds }) => {
  try {
    parentPort.postMessage({ id, answer: solve(lpText, seconds) });
  } catch (error) {
    parentPort.postMessage({ id, problem: error instanceof Error ? error.message : String(error) });
  }
});
