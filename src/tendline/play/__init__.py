"""Read the play: where to stand against every option of the attack, and why.

Plan view in the frame of the defended net: metres, seconds, radians; +x out, +y her left.
"""

from tendline.play.decision import DepthBand
from tendline.play.many import DepthMap, depth_map, evaluate_many, read_many
from tendline.play.options import COMING_IN, PASSES, Option, OptionKind
from tendline.play.parameters import PlayParameters, play_constants, play_parameters
from tendline.play.read import evaluate_place, read
from tendline.play.recognise import numbers_word
from tendline.play.result import (
    Attack,
    DepthCurve,
    DepthName,
    Numbers,
    OptionAnswer,
    Place,
    Read,
    Reason,
    Reply,
    Sensitivity,
)
from tendline.play.situation import Attacker, Defender, Goaltender, Situation, mirrored
from tendline.play.voice import Voice, in_voice
from tendline.play.words import answer_words, per_hundred

__all__ = [
    "COMING_IN", "PASSES", "Attack", "Attacker", "Defender", "DepthBand", "DepthCurve", "DepthMap",
    "DepthName", "Goaltender", "Numbers", "Option", "OptionAnswer", "OptionKind", "Place",
    "PlayParameters", "Read", "Reason", "Reply", "Sensitivity", "Situation", "Voice",
    "answer_words", "depth_map", "evaluate_many", "evaluate_place", "in_voice", "mirrored",
    "numbers_word", "per_hundred", "play_constants", "play_parameters", "read", "read_many",
]  # fmt: skip
