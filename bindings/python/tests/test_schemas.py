"""The JSON Schemas beside the package hold for what the library takes and gives."""

import copy
import json
import pathlib

import sirop
from support import TREE, Quiet, cases

FOLDER = pathlib.Path(sirop.__file__).parent
TYPES = {"object": dict, "array": list, "string": str, "boolean": bool, "number": (int, float), "null": type(None)}


def faults(value, schema, root, place="$"):
    """Where a value is not as the schema says: of the words that the schemas use."""
    if "$ref" in schema:
        return faults(value, root["$defs"][schema["$ref"].split("/")[-1]], root, place)
    if "anyOf" in schema:
        ways = [faults(value, one, root, place) for one in schema["anyOf"]]
        return [] if [] in ways else ways[0]
    kinds = [schema["type"]] if isinstance(schema.get("type"), str) else schema.get("type", [])
    if kinds and not any(isinstance(value, TYPES[one]) and (one != "number" or value is not True and value is not False)
                         for one in kinds):
        return [f"{place}: {value!r:.60} is no {kinds}"]
    if value != schema.get("const", value) or value not in schema.get("enum", [value]):
        return [f"{place}: {value!r} is not accepted"]
    if isinstance(value, (int, float)) and not schema.get("minimum", value) <= value <= schema.get("maximum", value):
        return [f"{place}: {value!r} is outside its range"]
    found = [f"{place}: {key} is missing" for key in schema.get("required", []) if key not in value]
    if isinstance(value, dict):
        for key, inside in value.items():
            known = schema.get("properties", {})
            if key in known:
                found += faults(inside, known[key], root, f"{place}.{key}")
            elif not schema.get("additionalProperties", True):
                found.append(f"{place}.{key}: is unknown")
    if isinstance(value, list):
        found += [one for index, inside in enumerate(value)
                  for one in faults(inside, schema.get("items", {}), root, f"{place}[{index}]")]
    return found


def of(name, value):
    schema = json.loads((FOLDER / f"{name}.schema.json").read_text(encoding="utf-8"))
    return faults(value, schema, schema)


BATCH = json.loads((TREE / "examples" / "batches" / "miso_caramel.json").read_text(encoding="utf-8"))


class Schemas(Quiet):
    def test_they_hold_for_what_is_accepted_and_answered(self):
        seen = 0
        for call, key, taken, given in (("sirop_predict_json", "batch", "batch", "answer"),
                                        ("sirop_ask_json", "question", "question", "reply")):
            for case in cases():
                if case["call"] == call and case["status"] >= 0:
                    self.assertEqual(of(taken, json.loads(case["in"][key])), [], case["in"][key][:300])
                    self.assertEqual(of(given, json.loads(case["out"])), [])
                    seen += 1
        self.assertGreater(seen, 10)
        for path in (TREE / "examples" / "batches").glob("*.json"):
            batch = json.loads(path.read_text(encoding="utf-8"))
            batch["neighbours"] = [{"ingredient": "mango puree", "grams": 50}]
            self.assertEqual((of("batch", batch), of("answer", sirop.predict(batch).raw)), ([], []), path)

    def test_every_caution_and_note_has_a_code(self):
        codes = set()
        for path in (TREE / "examples" / "batches").glob("*.json"):
            codes |= self.codes(sirop.predict(path).raw)
        for case in cases():
            if case["call"] in ("sirop_predict_json", "sirop_ask_json") and case["status"] >= 0:
                codes |= self.codes(json.loads(case["out"]))
        self.assertLessEqual({"hot_sugar_burns", "steam_burst", "graining", "keeping", "rescue_not_judged"}, codes)

    def codes(self, answer):
        remarks = answer["remarks"]
        self.assertEqual([one["about"] for one in remarks], [f"{kind}.{index}" for kind in ("cautions", "notes")
                                                             for index in range(len(answer[kind]))])
        for one in remarks:
            kind, index = one["about"].split(".")
            sentence = answer[kind][int(index)]
            self.assertNotEqual(one["code"], "other", sentence)
            self.assertEqual(one["severity"] in ("danger", "caution"), kind == "cautions", sentence)
            self.assertEqual(one["severity"] == "extrapolation", sentence.startswith("Extrapolation"), sentence)
            inside = answer
            for key in one.get("key", "").split(".") if "key" in one else ():
                inside = inside[key]
        self.assertEqual(remarks[0]["severity"], "danger")
        return {one["code"] for one in remarks} | (self.codes(answer["prediction"]) if "prediction" in answer else set())

    def test_what_they_refuse_is_refused(self):
        for place, value in (("colour", 1), ("pan", {}), ("cook.to_celsius", "hot"), ("cook.pressure_hpa", 299.9),
                             ("serve", {"celsius": 101}), ("sirop_batch", 2), ("pan.0.grams", -1),
                             ("pan.0.celsius", 20), ("off_heat", [{"ingredient": "honey", "grams": 1, "celsius": 121}]),
                             ("pan.0.ingredient", None), ("pan.0.per_100_g", {"gold": 100})):
            batch = copy.deepcopy(BATCH)
            *path, last = (int(key) if key.isdigit() else key for key in place.split("."))
            inside = batch
            for key in path:
                inside = inside[key]
            inside[last] = value
            with self.subTest(place=place):
                self.assertNotEqual(of("batch", batch), [])
                with self.assertRaises(sirop.BatchError):
                    sirop.predict(batch)
        answer = sirop.predict(BATCH).raw
        del answer["set"]["word"]
        answer["cooked"]["grams_low"] = "many"
        self.assertEqual(len(of("answer", answer)), 2)
