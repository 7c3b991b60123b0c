"""Trials: what a press puts in is one step, and is told only while the draft is the one it led to."""

from rigcheck.rig import examples
from rigcheck.ui import draft as drafts
from rigcheck.ui import session, trying
from rigcheck.whatif.other_drive import Change

KILN = drafts.of_rig(examples.example("kiln-shell"), drafts.EXAMPLE)


class Kept:
    """A session as far as trials use it."""

    def __init__(self, monkeypatch):
        self.now, self.pages = KILN, {}
        monkeypatch.setattr(session, "draft", lambda: self.now)
        monkeypatch.setattr(session, "put", self.put)
        monkeypatch.setattr(session, "remember", self.pages.__setitem__)
        monkeypatch.setattr(session, "remembered", lambda name, otherwise=None: self.pages.get(name, otherwise))

    def put(self, new):
        self.now = new


def test_a_trial_is_told_where_it_was_made_and_nowhere_else(monkeypatch):
    kept = Kept(monkeypatch)
    trying.put_change(Change("96 kg", ((("bodies", "counterweight", "mass"), "96 kg"),)), "weight", "weight of counterweight")
    assert kept.now.at(("bodies", "counterweight", "mass")) == "96 kg"
    assert trying.now_on("weight").words == "weight of counterweight: 96 kg"
    assert trying.now_on("drive") is None


def test_a_trial_is_no_longer_told_once_something_else_was_changed_and_again_when_that_is_taken_back(monkeypatch):
    kept = Kept(monkeypatch)
    trying.put(KILN.edited(("limits", "travel"), "0.9 m"), "drive", "a shorter travel")
    tried = kept.now
    kept.now = tried.edited(("limits", "travel"), "0.8 m")
    assert trying.now_on("drive") is None
    kept.now = tried
    assert trying.now_on("drive").words == "a shorter travel"


def test_no_more_trials_are_kept_than_can_matter(monkeypatch):
    kept = Kept(monkeypatch)
    for number in range(trying.KEPT + 5):
        trying.put(KILN.edited(("limits", "travel"), f"{number + 1} m"), "drive", str(number))
    (trials,) = kept.pages.values()
    assert len(trials) == trying.KEPT
    assert trials[-1].words == str(trying.KEPT + 4)
