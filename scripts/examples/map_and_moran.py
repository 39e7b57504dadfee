"""Draws one map of a downloaded release and repeats its global test of clustering.

    python3 map_and_moran.py FOLDER [SPECIES GROUP FIRST_SEASON] [--png FILE]

FOLDER holds the files of one release (its ZIP unpacked). Without a species, group and first season of a window, the map
with the most places is taken. Needs pandas, geopandas and matplotlib (on Debian: python3-geopandas python3-matplotlib).
Ends with 1 where the index is not the one that the release states.
"""

import argparse
import json
from pathlib import Path

import geopandas
import matplotlib
import numpy
import pandas

matplotlib.use("Agg")
TOLERANCE = 1e-8


def main():
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("folder", type=Path)
    arguments.add_argument("map", nargs="*", help="SPECIES GROUP FIRST_SEASON")
    arguments.add_argument("--png", default="map.png")
    given = arguments.parse_args()
    if len(given.map) not in (0, 3):
        arguments.error("a map is named by SPECIES GROUP FIRST_SEASON")
    release = read_release(given.folder)
    finding = choose(release["findings"], given.map)
    cells = cells_of_map(release, finding)
    draw(release, finding, cells, given.png)

    index, places = moran(release, finding, cells)
    stated = finding["global"]["index"]
    print(f"{label(finding)}: Moran's index of {places} places {index:.12f}, stated {stated:.12f}")
    print(f"The map is in {given.png}.")
    raise SystemExit(0 if abs(index - stated) < TOLERANCE else 1)


def read_release(folder):
    # Codes of counties begin with zeros, so keys are read as texts.
    def table(end):
        return pandas.read_csv(one(folder, end), dtype=str, keep_default_na=False)

    return {
        "cells": table("-cells.csv"),
        "neighbours": table("-neighbours.csv"),
        "county_places": table("-county-places.csv"),
        "findings": json.loads(one(folder, "-findings.json").read_text())["findings"],
        "outlines": geopandas.read_file(one(folder, "-places.geojson")),
    }


def one(folder, end):
    found = list(folder.glob(f"*{end}"))
    if len(found) != 1:
        raise SystemExit(f"{folder} holds {len(found)} files that end with {end}; one is needed.")
    return found[0]


def choose(findings, wanted):
    maps = [f for f in findings if f["kind"] == "clustering" and f["global"]]
    if wanted:
        species, group, first = wanted
        maps = [
            f
            for f in maps
            if (f["species"], f["group"], f["period"]["first"]) == (species, int(group), int(first))
        ]
    if not maps:
        raise SystemExit("The release tells no index of such a map.")
    return max(maps, key=lambda f: f["places"])


def label(finding):
    first, last = finding["period"]["first"], finding["period"]["last"]
    return f"{finding['species']}, group {finding['group']}, {first}–{last}, by {finding['grain']}"


def cells_of_map(release, finding):
    cells = release["cells"]
    kinds = ["district"] if finding["grain"] == "district" else ["area", "county"]
    return cells[
        (cells.species == finding["species"])
        & (cells.group == str(finding["group"]))
        & (cells.first_season == str(finding["period"]["first"]))
        & (cells.last_season == str(finding["period"]["last"]))
        & (cells.assay == "whole plant")
        & (cells.design == "all")
        & cells.place_kind.isin(kinds)
    ]


def moran(release, finding, cells):
    """Moran's index of EB-standardised shares, each neighbour of a place with the same weight (see the code book)."""
    published = cells[cells.status == "published"].set_index("place")
    touching = touching_places(release, finding)
    known = {
        place: sorted(touching.get(place, set()) & set(published.index)) for place in published.index
    }
    places = [place for place, others in known.items() if others]
    tested = published.tested[places].astype(float).to_numpy()
    resistant = published.resistant[places].astype(float).to_numpy()

    share, mean = resistant / tested, resistant.sum() / tested.sum()
    scatter = (tested * (share - mean) ** 2).sum() / tested.sum()
    counting = mean * (1 - mean)
    between = max(0.0, scatter - counting / tested.mean())
    z = (share - mean) / numpy.sqrt(between + counting / tested)

    z = z - z.mean()
    at = {place: i for i, place in enumerate(places)}
    around = numpy.array([z[[at[other] for other in known[place]]].mean() for place in places])
    return (z * around).sum() / (z**2).sum(), len(places)


def touching_places(release, finding):
    """Two places touch where a county of one touches a county of the other."""
    counties = release["county_places"]
    own = counties[
        (counties.species == finding["species"])
        & (counties.first_season == str(finding["period"]["first"]))
    ].set_index("county")
    place_of = own.district if finding["grain"] == "district" else own.place
    touching = {}
    for a, b in release["neighbours"].itertuples(index=False):
        if place_of[a] != place_of[b]:
            touching.setdefault(place_of[a], set()).add(place_of[b])
    return touching


def draw(release, finding, cells, path):
    shapes = release["outlines"][["place_kind", "place", "geometry"]].merge(
        cells, on=["place_kind", "place"]
    )
    shapes["share"] = pandas.to_numeric(shapes.share)
    looks = {"withheld": {"color": "#dddddd", "hatch": "////"}, "not screened": {"color": "white"}}
    axes = None
    for status, look in looks.items():
        part = shapes[shapes.status == status]
        if len(part):
            axes = part.plot(ax=axes, edgecolor="#999999", linewidth=0.4, **look)
    axes = shapes[shapes.status == "published"].plot(
        ax=axes, column="share", cmap="YlOrRd", vmin=0, vmax=1, legend=True, edgecolor="#555555", linewidth=0.4
    )
    simulated = "Simulated data. " if (cells.simulated == "yes").any() else ""
    axes.set_title(
        f"{simulated}Share resistant: {label(finding)}\n(hatched: withheld; white: not screened)", fontsize=9
    )
    axes.set_axis_off()
    axes.figure.savefig(path, dpi=150)


if __name__ == "__main__":
    main()
