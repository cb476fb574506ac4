"""The fields at the head of a recipe, as models: they check them, and give the JSON Schema."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from sitegen.models import STRICT
from sitegen.reading.values import (
    Clock,
    CountField,
    Day,
    FilmAddress,
    Focus,
    Minutes,
    StepNumber,
    Text,
    VolumeField,
    WeightField,
    Whole,
    Words,
    as_list,
)


class _Model(BaseModel):
    model_config = STRICT | ConfigDict(populate_by_name=True)


class TimeFields(_Model):
    """``time: {prep: 25 min, cook: 1 h 10 min, rest: 30 min}``."""

    prep: Minutes | None = Field(None, description="hands-on time before the heat")
    cook: Minutes | None = Field(None, description="time over or in the heat")
    rest: Minutes | None = Field(None, description="rising, soaking, chilling, cooling")


class PhotoFields(_Model):
    """``photo: {file: broth.jpg, alt: A deep bowl of broth}``."""

    file: Text = Field(description="the picture's file, beside the recipe")
    alt: Text = Field(description="what it shows, for those who can't see it")
    focus: Focus | None = Field(None, description="the point that crops keep")


class VideoFields(_Model):
    """``video: {file: rolls.webm, title: …, alt: …, length: 0:35, poster: rolls.jpg}``."""

    file: Text | None = Field(None, description="a .webm or .mp4 beside the recipe")
    address: FilmAddress | None = Field(
        None, description="or where it stands on another host, which is asked only after a press"
    )
    title: Text = Field(description="what it is called")
    alt: Text = Field(description="what it shows, for those who can't see it or don't play it")
    length: Clock = Field(description="how long it is")
    poster: Text = Field(description="a still beside the recipe, shown until it is played")
    published: Day | None = Field(None, description="if on another day than the recipe")
    captions: Text | None = Field(None, description="a .vtt beside the recipe: what is said in it")
    transcript: Text | None = Field(None, description="what is said and shown, to be read")
    steps: dict[StepNumber, Clock] = Field(
        default_factory=dict,
        description="where in the film each step begins",
        examples=[{"1": "0:05", "3": "0:40"}],
    )


class SilenceFields(_Model):
    """``silence: [{rule: portion-unusual, why: a tasting plate}]``."""

    rule: Text = Field(description="the name that stands after the finding, in brackets")
    why: Text = Field(description="the reason, for whoever reads this next")
    ingredient: Text | None = Field(None, description="only about this ingredient")
    step: Whole | None = Field(None, description="only about this step's number")


Silences = Annotated[list[SilenceFields], BeforeValidator(as_list)]


class RecipeFields(_Model):
    """Every field that a recipe may have."""

    title: Text = Field(description="the dish's name")
    summary: Text | None = Field(None, description="one sentence under the title")
    published: Day | None = Field(None, description="none: a draft, seen in the preview only")
    updated: Day | None = Field(
        None, description="the day of the last change that a cook would see"
    )
    author: Text | None = Field(None, description="a key of site.yaml's authors")
    course: Text | None = Field(
        None,
        description="where it stands in a meal",
        examples=["main", "side", "bread", "baking", "pudding", "sauce", "soup"],
    )
    cuisine: Text | None = Field(None, description="whose cooking it is", examples=["Nordic"])
    tags: Words = Field(
        default_factory=list,
        description="what else to file it under",
        examples=[["barley", "winter"]],
    )
    serves: Whole = Field(description="portions: what per-serving figures divide by", examples=[6])
    makes: CountField | None = Field(None, description="how many of what: 18 dumplings")
    weighs: WeightField | None = Field(None, description="the finished batch")
    volume: VolumeField | None = Field(None, description="the batch's volume, where it matters")
    time: TimeFields | None = Field(None, description="how long it takes: prep, cook, rest")
    tools: Words = Field(
        default_factory=list,
        description="what a cook must have, with sizes; tins and scoops are measured from here",
        examples=[["5 l stockpot", "23 cm round tin", "no. 40 scoop"]],
    )
    photo: PhotoFields | None = Field(None, description="the picture beside the recipe's file")
    disclosure: Text | None = Field(
        None,
        description="who paid or gave what, told near the top of the page",
        examples=["The mill gave us the flour for this loaf."],
    )
    video: VideoFields | None = Field(None, description="a film of the recipe, or of a step")
    may_contain: Words = Field(
        default_factory=list,
        alias="may contain",
        description="traces that a packet or kitchen brings",
        examples=[["sesame"]],
    )
    silence: Silences = Field(
        default_factory=list, description="findings of the read-through to keep quiet about"
    )
    ingredients: Any = Field(
        description="one line each, in the order of use; or parts, each a name over its lines"
    )
