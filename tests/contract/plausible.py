"""What a fuzzer can't guess: values that fit together.

No pattern can say that a slab is at most 3 m long, nor a query that a circle has no width; left alone, nearly all
that is made up is refused by 422, and the sums behind the refusals are never fuzzed. So what is made up right is
grafted, in three cases of four, on a request that is known to be answered. What was made wrong on purpose is left
alone, and what was right stays right: a validator from outside judges both. Chances hang on the values themselves,
so that two runs send the same.
"""

import json
import re
from functools import cache
from zlib import crc32

import jsonschema_rs
import schemathesis

from service import create_app
from service.routes.contract import document
from service.schemas.quantities import DIMENSIONS
from service.settings import Settings

create_app(Settings())
CONTRACT = document()

USUAL = {dimension.name: dimension.examples for dimension in DIMENSIONS} | {
    "length": (
        "600 mm",
        "300mm",
        "8 mm",
        "40 mm",
        "1.2 m",
        "3.65 m",
        "2 ft",
        "6 1/2 in",
        "7 ft 3 in",
        "10 mm",
        "150 mm",
    ),
    "position": ("0 m", "400 mm", "1.25 m", "-300 mm", "2 ft 1 in"),
    "area": ("17.3 m2", "1 m2", "186 ft2", "0.5 yd2"),
    "volume": ("0.45 m3", "90 l", "1 yd3", "12 UK gal"),
    "mass": ("25 kg", "94 lb", "0.85 t"),
    "density": ("1600 kg/m3", "2.1 t/m3", "94 lb/ft3"),
    "rate": ("50 mm/h", "2 in/h"),
    "angle": ("0 deg", "45 deg", "30 deg", "-17.5 deg", "1 rad"),
    "gradient": ("1 in 60", "2 %", "0.25 in/ft"),
    "slope": ("1 in 80", "-1 %", "0 %"),
}
PATTERNS = [(dimension.name, re.compile(dimension.pattern, re.ASCII)) for dimension in DIMENSIONS]


def chance(place, value):
    """A number that hangs on a value and its place alone."""
    return crc32(f"{place}{value!r}".encode("utf-8", "backslashreplace"))


def usual(value):
    """A quantity of a usual size in place of any other; the rest as it is, entry by entry."""
    if isinstance(value, dict):
        return {name: usual(inner) for name, inner in value.items()}
    if isinstance(value, list):
        return [usual(inner) for inner in value]
    names = [name for name, pattern in PATTERNS if isinstance(value, str) and pattern.fullmatch(value)]
    return USUAL[names[0]][chance("", value) % len(USUAL[names[0]])] if names else value


def grafted(made, known, place=""):
    """Some of what was made up, on a stock that is known to be answered."""
    luck = chance(place, made)
    if not (isinstance(made, dict) and isinstance(known, dict) and _words(made) == _words(known)):
        return usual(made) if luck % 4 == 0 else known
    new = made.keys() - known.keys()
    shoots = {name: usual(made[name]) for name in new if chance(f"{place}{name}", made) % max(6, len(new)) == 0}
    stock = {
        name: grafted(made[name], known[name], f"{place}/{name}") if name in made else known[name]
        for name in known
        if name in made or chance(f"{place}-{name}", made) % 8
    }
    return stock | dict(sorted(shoots.items()))


def _words(value):
    """The words that tell the branches of a union apart."""
    return [value.get(word) for word in ("shape", "surface")]


def flat(body, path=()):
    """A body as the names and texts of a query, so far as a query can say it."""
    pairs = {}
    single = {"slab": body["slabs"][0]} if len(body.get("slabs", ())) == 1 else {}
    for name, value in (body | single).items():
        if isinstance(value, dict):
            pairs |= flat(value, (*path, name))
        elif not isinstance(value, list):
            pairs[".".join((*path, name))] = value
    return pairs


@cache
def stock(path):
    """A request of a resource that is answered."""
    post = CONTRACT["paths"]["/v1/" + re.split(r"[./]", path.removeprefix("/v1/"))[0]].get("post")
    return json.dumps(post["requestBody"]["content"]["application/json"]["example"]) if post else None


@cache
def body_judge(path):
    """Whether a body fits the contract."""
    schema = CONTRACT["paths"][path]["post"]["requestBody"]["content"]["application/json"]["schema"]
    return jsonschema_rs.Draft202012Validator({**schema, "components": CONTRACT["components"]})


@cache
def query_judges(path):
    """Whether a text of a query fits the contract, and whether the name has to be there."""
    components = CONTRACT["components"]["parameters"]
    listed = CONTRACT["paths"][path]["get"].get("parameters", [])
    parameters = [components[p["$ref"].rpartition("/")[2]] if "$ref" in p else p for p in listed]
    return {
        p["name"]: (jsonschema_rs.Draft202012Validator(p["schema"]), p["required"])
        for p in parameters
        if p["in"] == "query"
    }


def fits(path, query):
    """Whether a whole query fits the contract."""
    judges = query_judges(path)
    return all(name in judges and judges[name][0].is_valid(value) for name, value in query.items()) and all(
        name in query for name, (_, required) in judges.items() if required
    )


@schemathesis.hook
def map_body(context, body):
    """A body that may well be answered."""
    path = context.operation.path
    if chance("body", body) % 4 == 0 or not isinstance(body, dict) or not body_judge(path).is_valid(body):
        return body
    graft = grafted(body, json.loads(stock(path)))
    return graft if body_judge(path).is_valid(graft) else body


@schemathesis.hook
def map_query(context, query):
    """A query that may well be answered."""
    path = context.operation.path
    if not isinstance(query, dict) or chance("query", query) % 4 == 0 or not stock(path) or not fits(path, query):
        return query
    graft = grafted(query, flat(json.loads(stock(path))))
    return graft if fits(path, graft) else query
