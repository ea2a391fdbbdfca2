"""Replies kept so that a write that arrives twice happens once."""

from django.db import models


class StoredReply(models.Model):
    """The reply to one write, found again by who sent it and the key they gave it."""

    caller = models.CharField(max_length=80)
    key = models.CharField(max_length=100)
    digest = models.CharField(max_length=64)
    status = models.PositiveSmallIntegerField(default=0)
    content_type = models.CharField(max_length=100, blank=True)
    etag = models.CharField(max_length=40, blank=True)
    body = models.BinaryField(default=bytes)
    created_at = models.DateTimeField(auto_now_add=True, db_index=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["caller", "key"], name="one_reply_a_key")]

    def __str__(self) -> str:
        return f"{self.key}: {self.status}"
