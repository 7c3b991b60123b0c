"""Balance: what the counterweight leaves to pull along the travel, the best weight, its limits, and a slider to try another one."""

import streamlit

from rigcheck.ui import balance_view, in_sight, session

standing = session.standing()
if standing.assessment is None:
    in_sight.tell_no_rig()
else:
    streamlit.subheader("Balance")
    balance_view.show(standing)
