# SPDX-License-Identifier: MIT
"""Reads and writes YAML, by the core schema of YAML 1.2, as an editor with a JSON Schema does.

PyYAML follows YAML 1.1, which takes `1:5` for a number to base 60 and `2026-11-25` for a date.
"""
import re

import yaml


class Loader(yaml.SafeLoader):
    """Plain YAML: no anchors, aliases, tags, doubled keys; only null, true, false and numbers are not text."""

    def compose_node(self, parent, index):
        event = self.peek_event()
        if getattr(event, "anchor", None) or getattr(event, "tag", None):
            raise yaml.composer.ComposerError(None, None, "anchor, alias or tag", event.start_mark)
        return super().compose_node(parent, index)

    def construct_mapping(self, node, deep=False):
        keys = [key.value for key, _ in node.value if isinstance(key, yaml.ScalarNode)]
        if len(set(keys)) != len(node.value):
            raise yaml.constructor.ConstructorError(
                None, None, "a key that is doubled or not a word", node.start_mark)
        return {str(key): value for key, value in super().construct_mapping(node, deep).items()}


Loader.yaml_implicit_resolvers = {}
for tag, pattern, first in (
    ("null", r"^(null|Null|NULL|~|)$", ["n", "N", "~", ""]),
    ("bool", r"^(true|True|TRUE|false|False|FALSE)$", list("tTfF")),
    ("int", r"^([-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+)$", list("-+0123456789")),
    ("float", r"^([-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?"
              r"|[-+]?\.(inf|Inf|INF)|\.(nan|NaN|NAN))$", list("-+0123456789.")),
):
    Loader.add_implicit_resolver(f"tag:yaml.org,2002:{tag}", re.compile(pattern), first)


def _float(loader, node):
    text = loader.construct_scalar(node).lower()
    return float(text.replace(".inf", "inf").replace(".nan", "nan"))


def _int(loader, node):
    text = loader.construct_scalar(node)
    return int(text, 0) if text[:2] in ("0o", "0x") else int(text)


Loader.add_constructor("tag:yaml.org,2002:float", _float)
Loader.add_constructor("tag:yaml.org,2002:int", _int)


def dump(job):
    """The job as a file's text, in blocks, its keys in their order."""
    return yaml.dump(job, Dumper=yaml.CSafeDumper, allow_unicode=True, sort_keys=False, width=10000)


def parse(text):
    """The one document of the text as plain data; raises yaml.YAMLError."""
    return yaml.load(text, Loader)


def load(path):
    """The same of a file; raises UnicodeDecodeError, too."""
    with open(path, encoding="utf-8-sig") as file:
        return parse(file)
