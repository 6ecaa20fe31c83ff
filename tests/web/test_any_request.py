"""Whatever is asked of any address of the bench, it answers in a sentence: never with a fault of its own.

Every route of the application is tried with every method that it takes, with ids that are and are not kept, and with
hostile names, numbers, files and keys; the list of naughty texts is of the kinds that the OWASP testing guide names
(from memory).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import quote

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from starlette.routing import Route
from starlette.testclient import TestClient

from ellwand.choose.form.described import options
from ellwand.keep import KeptCloth, KeptGarment, Person, Roster, save
from ellwand.model.measurement import FIELDS
from visiting import visitor

SLOW = ("/papers.zip", "/lay/events", "/classes/{id}/pack.zip", "/papers/{name}", "/classes/{id}/order.csv")
"""Work of seconds each: asked in tests of their own."""
NAUGHTY = [
    "",
    "0",
    "-1",
    "1e400",
    "nan",
    "١٢٣",
    "9" * 60,
    "<script>alert(1)</script>",
    "' OR 1=1 --",
    "../../etc/passwd",
    "%00",
    "\0",
    "\ud7ff\u202e",
    "{{7*7}}",
    "${jndi:x}",
    "🧵",
    "x" * 400,
    "none",
    "own",
    "150",
    "60 in",
    "yes",
]
OWN = ("who", "unit", "garment", "based", "add", "drop", "open", "shelf", "a", "b", "thrown", "taken", "came", "erased")
POSTED = (
    "name",
    "query",
    "way",
    "other",
    "version",
    "word",
    "text",
    "wearer",
    "member",
    "confirmed",
    "file",
    "language",
)

text = st.sampled_from(NAUGHTY) | st.text(max_size=12)
key = st.sampled_from([*OWN, *POSTED, *FIELDS, *options()]) | st.text(max_size=8)
pairs = st.lists(st.tuples(key, text), max_size=6)
file = st.tuples(text, st.binary(max_size=200) | text.map(lambda each: each.encode("utf-8", "replace")))


@pytest.fixture(scope="module")
def asked(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[TestClient, list[tuple[str, str]], list[str]]]:
    """A visitor, all routes with their methods, and some ids that are kept."""
    keep = f"sqlite:///{tmp_path_factory.mktemp('kept') / 'kept.db'}"
    with visitor(keep, raise_server_exceptions=False, follow_redirects=False) as client:
        store = client.app.state.store
        person = save(store, Person(name="Sib", table={"name": "Sib", "height": "168", "bust_girth": "92"}))
        garment = save(store, KeptGarment(name="Tunic", person=person.id, fields={"garment.length": "ankle"}))
        cloth = save(store, KeptCloth(name="Grey", table={"width": "150 cm"}))
        roster = save(store, Roster(name="Class", members=(person.id,), garment=garment.id))
        routes = [
            (route.path, method)
            for route in client.app.routes
            if isinstance(route, Route) and route.path not in SLOW
            for method in sorted(route.methods or ())
            if method != "HEAD"
        ]
        yield client, routes, [person.id, garment.id, cloth.id, roster.id, "joan-netmaker", "people", "height", "1"]


@settings(max_examples=250, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
@given(data=st.data())
def test_every_address_answers_in_a_sentence(asked, data: st.DataObject) -> None:
    client, routes, ids = asked
    path, method = data.draw(st.sampled_from(routes))
    part = st.sampled_from(ids) | text
    filled = re.sub(r"{\w+(:int)?}", lambda _found: quote(data.draw(part), safe=""), path)
    query = data.draw(pairs)
    if method == "GET":
        answer = client.get(filled, params=query)
    else:
        files = {"file": data.draw(file)} if data.draw(st.booleans()) else None
        body: dict[str, list[str]] = {}
        for name, value in data.draw(pairs):
            body.setdefault(name, []).append(value)
        answer = client.post(filled, params=query, data=body, files=files)
    assert answer.status_code < 500, (method, filled, query, answer.text[-400:])
    assert "Traceback" not in answer.text
    assert "default-src 'none'" in answer.headers["content-security-policy"]
    if answer.headers.get("content-type", "").startswith("text/html"):
        assert "<script>alert" not in answer.text


def test_what_was_kept_is_still_whole(asked) -> None:
    """After all that, nothing that is kept breaks a list."""
    client, _routes, _ids = asked
    for path in ("/people", "/cloths", "/garments", "/classes", "/keeping"):
        assert client.get(path).status_code == 200


def test_no_file_of_the_machine_is_reached(asked, tmp_path: Path) -> None:
    client, _routes, _ids = asked
    for path in (
        "/static/../app.py",
        "/static/..%2fapp.py",
        "/static/%2e%2e/app.py",
        "/papers/..%2f..%2fapp.py",
    ):
        assert client.get(path).status_code in (400, 404)
