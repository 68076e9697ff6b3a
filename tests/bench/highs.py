"""The most boxes of a planning problem by HiGHS: prints what it found and the processor's time for it.

Groups and stock that are alike are put together first, as the program does. Needs `pip install highspy`.
"""

import json
import sys
import time

import highspy


def fits(item, group):
    return item["sex"] in ("either", group["sex"]) and (
        item["age_from"] <= group["age_from"] and group["age_to"] <= item["age_to"]
    )


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        problem = json.load(file)
    began = time.process_time()
    model = highspy.Highs()
    for name, value in [("output_flag", False), ("threads", 1), ("mip_rel_gap", 0.0), ("time_limit", 20.0)]:
        model.setOptionValue(name, value)
    groups = problem["groups"]
    counts = [model.addIntegral(0, group["count"], obj=-1) for group in groups]
    for category in problem["categories"]:
        spots = {}
        for at, group in enumerate(groups):
            spots.setdefault((group["sex"], group["age_from"], group["age_to"]), []).append(at)
        supplies = {}
        for lot in problem["lots"]:
            to = tuple(spot for spot, of in spots.items() if fits(lot, groups[of[0]]))
            if lot["category"] == category and to:
                supplies[to] = supplies.get(to, 0) + lot["quantity"]
        into = {spot: [] for spot in spots}
        for to, units in supplies.items():
            ways = [model.addVariable(0, units) for _ in to]
            model.addConstr(sum(ways) <= units)
            for spot, way in zip(to, ways):
                into[spot].append(way)
        for spot, of in spots.items():
            needed = sum(groups[at]["need"].get(category, 0) * counts[at] for at in of)
            model.addConstr(needed - sum(into[spot]) <= 0 if into[spot] else needed <= 0)
    model.run()
    info = model.getInfo()
    found, bound = round(-info.objective_function_value), round(-info.mip_dual_bound)
    print(found if found == bound else f"{found}–{bound}", time.process_time() - began)


main()
