"""What the pages share; with the pages themselves the only part that imports Streamlit."""
