"""Sheets cut in two stages or in as many as one likes, as published cutting problems ask; boards never need them."""
